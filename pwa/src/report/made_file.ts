/** A file that was made for the person, as the screens offer it. */

/** `url` is for a download link; `share` opens the phone's own sheet, null where it has none. */
export interface MadeFile {
  name: string;
  url: string;
  bytes: number;
  share: (() => Promise<void>) | null;
}

/** How much has come of a file; `of` is null where the server does not say how large it will be. */
export interface Progress {
  bytes: number;
  of: number | null;
}
