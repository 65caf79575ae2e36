/** What the page asks of the photo worker, and what comes back. */

import type { Marking } from "./ring";

export interface ShrinkAsk {
  file: Blob;
  /** Longest side in pixels; a photo that is kept has the worker's own. */
  longest_px?: number;
  /** What is drawn on it. */
  marking?: Marking;
}

/** `failed` is a sentence for the person. */
export type ShrinkReply =
  | { bytes: ArrayBuffer; type: "image/jpeg"; sha256: string; width: number; height: number }
  | { failed: string };
