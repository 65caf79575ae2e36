/** What the PDF of a walk says, ready to be set: words, figures and photos by hash. Made where the words are. */

export type PaperSize = "a4" | "letter";

/** A photo with its words; `before`: the same view on the walk out, on the paper of a return. */
export interface PaperPhoto {
  photo: string | null;
  caption: string;
  /** Why there is none, or "". */
  why_none: string;
  before: { photo: string | null; why_none: string } | null;
}

export interface PaperSigner {
  /** "For the team". */
  side: string;
  name: string;
  /** How he signed, in words. */
  how: string;
  photo: string | null;
}

export interface WalkPaper {
  /** The file's name without its ending. */
  name: string;
  size: PaperSize;
  lang: string;
  title: string;
  /** Car, event, agreement, time: label and value. */
  facts: [label: string, value: string][];
  /** What the paper is, and is not. */
  terms: string[];
  marks: { title: string; none: string; zones: { zone: string; marks: { text: string; photos: PaperPhoto[] }[] }[] }[];
  tables: { title: string; rows: [label: string, value: string][] }[];
  photos: { title: string; columns: [string, string] | null; views: PaperPhoto[] };
  signed: { title: string; signers: PaperSigner[] };
  note: { title: string; text: string } | null;
  /** At the foot of each page, before "page x of y". */
  foot: string;
  page: (page: number, of: number) => string;
  /** "Label: text", as the language sets a colon. */
  labelled: (label: string, text: string) => string;
  /** In place of a photo that is not on this phone. */
  missing: string;
}

/** A paper that was made. `url` is for a download link; `share` opens the phone's own sheet, null where it has none. */
export interface MadePaper {
  name: string;
  url: string;
  bytes: number;
  pages: number;
  /** Photos that this phone does not hold: the paper says so in their place. */
  missing: number;
  share: (() => Promise<void>) | null;
}
