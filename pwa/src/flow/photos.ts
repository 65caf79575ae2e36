/** Photos for the screens: shrunk and kept, or fetched to be looked at. */

import type { Marking } from "../kit/ring";
import type { NotShrunk, ShrinkAsk, ShrinkReply } from "../kit/shrink";
import { keepDraftPhoto } from "../store/photos";
import workerUrl from "../worker/photo?worker&url";
import { ownBlob, serverBlob } from "./blobs";
import type { Core } from "./core";
import { fail, isFull } from "./save";
import { askWorker } from "./worker";
import { laterMessages } from "../kit/later_messages";

/** Object URLs hold their pictures in memory: the oldest go when there are more than so many. */
const MOST_URLS = 80;

const urls = new Map<string, string>();

/** Keep a new photo with the ring on it; the one that it shows stays as it is. Returns its SHA-256. Errors: UserError. */
export async function markPhoto(core: Core, sha256: string, marking: Marking): Promise<string> {
  const blob = await anyBlob(core, sha256);
  return blob ? keepPhoto(core, blob, marking) : fail(core, laterMessages.photoNotHere);
}

/** Return the object URL of a photo from this phone or the server (`width` for a thumbnail), null where neither has it. */
export async function photoUrl(core: Core, sha256: string, width?: number): Promise<string | null> {
  const key = `${sha256} ${width ?? ""}`;
  const known = urls.get(key);
  if (known) return known;
  const blob = await anyBlob(core, sha256, width);
  return blob && remember(key, URL.createObjectURL(blob));
}

const anyBlob = async (core: Core, sha256: string, width?: number) =>
  (await ownBlob(core, sha256)) ?? (await serverBlob(core, sha256, width));

/** Shrink a picture in a worker, which takes its EXIF data off, and keep it. Returns its SHA-256. Errors: UserError. */
export async function keepPhoto(core: Core, file: Blob, marking?: Marking): Promise<string> {
  const reply = await shrunk(file, undefined, marking);
  if ("failed" in reply) return fail(core, notShrunk(reply));
  const { sha256: photo, bytes, type } = reply;
  try {
    await keepDraftPhoto(await core.db, { photo, bytes, type }, new Date(core.now()).toISOString());
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    return fail(core, isFull(error) ? laterMessages.photoFull : laterMessages.photoNotWritten);
  }
  return photo;
}

/** Return why a picture was not made small, in words. */
export const notShrunk = ({ failed, why = "" }: { failed: NotShrunk; why?: string }): string =>
  laterMessages.notShrunk[failed](why);

/** Have a picture shrunk; `longest_px` for one that is smaller than what is kept, `marking` for what is drawn on it. */
export function shrunk(file: Blob, longest_px?: number, marking?: Marking): Promise<ShrinkReply> {
  const ask = { file, longest_px, marking };
  return askWorker<ShrinkAsk, ShrinkReply>(workerUrl, ask, { failed: "no-worker" });
}

function remember(key: string, url: string): string {
  urls.set(key, url);
  const [oldest] = urls;
  if (urls.size > MOST_URLS && oldest) {
    URL.revokeObjectURL(oldest[1]);
    urls.delete(oldest[0]);
  }
  return url;
}
