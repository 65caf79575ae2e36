/** What the page asks of the photo worker, and what comes back. */

import type { Marking } from "./ring";

export interface ShrinkAsk {
  file: Blob;
  /** Longest side in pixels; a photo that is kept has the worker's own. */
  longest_px?: number;
  /** What is drawn on it. */
  marking?: Marking;
}

/** Why a picture was not made small; the page has the words for it. */
export type NotShrunk = "unreadable" | "no-https" | "no-jpeg" | "no-worker";

/** `why`: the decoder's own word, where it had one. */
export type ShrinkReply =
  | { bytes: ArrayBuffer; type: "image/jpeg"; sha256: string; width: number; height: number }
  | { failed: NotShrunk; why?: string };
