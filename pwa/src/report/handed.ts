/** What passes from phone to phone without a network, as the screens tell of it. */

/** A bundle that was made. `url` is for a download link; `share` opens the phone's own sheet, null where it has none. */
export interface MadeBundle {
  name: string;
  url: string;
  bytes: number;
  entries: number;
  photos: number;
  share: (() => Promise<void>) | null;
}

/** What came in. */
export interface TakenIn {
  /** Entries new on this phone; they wait to be sent. */
  fresh: number;
  held: number;
  photos: number;
  /** Of the new ones: entries that count only once the server has judged them. */
  doubtful: number;
  /** Another entry of the same number is here, and stays. */
  conflicts: number;
  /** No entries that this app can read; nothing of them was kept. */
  unreadable: number;
}

/** `damaged`: nothing was taken, and why, a line each. */
export type BundleTaken = { taken: TakenIn } | { damaged: string[] };

/** A QR code: rows of modules, true is dark, with the white around it. */
export type Code = boolean[][];

/** What the camera saw. `failed`: there is no picture. */
export type ScanNews =
  | { news: "looking" }
  | { news: "piece"; have: number; of: number }
  | { news: "foreign" }
  | { news: "damaged" }
  | { news: "taken"; taken: TakenIn }
  | { news: "failed"; why: "no-https" | "no-camera" | "not-allowed" };

/** A camera that looks for codes. */
export interface Scan {
  stop(): void;
}
