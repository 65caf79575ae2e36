/** Photos for the screens: shrunk and kept, or fetched to be looked at. */

import type { Marking } from "../kit/ring";
import type { ShrinkAsk, ShrinkReply } from "../kit/shrink";
import { keepDraftPhoto, photoHere } from "../store/photos";
import { API } from "../sync/wire";
import workerUrl from "../worker/photo?worker&url";
import type { Core } from "./core";
import type { Actions } from "./model";
import { fail, isFull } from "./save";
import { askWorker } from "./worker";

/** Object URLs hold their pictures in memory: the oldest go when there are more than so many. */
const MOST_URLS = 80;

/** Make the actions. */
export function photoActions(core: Core): Pick<Actions, "keepPhoto" | "markPhoto" | "photoUrl" | "takeShared"> {
  const urls = new Map<string, string>();
  return {
    keepPhoto: (file) => keepPhoto(core, file),
    takeShared: async () => (await import("./shared")).takeShared((file) => keepPhoto(core, file)),
    // One that is gone since it was shown can't be read, and the worker says so.
    markPhoto: async (sha256, marking) => keepPhoto(core, (await anyBlob(core, sha256)) ?? new Blob(), marking),
    async photoUrl(sha256, width) {
      const key = `${sha256} ${width ?? ""}`;
      const known = urls.get(key);
      if (known) return known;
      const blob = await anyBlob(core, sha256, width);
      return blob && remember(urls, key, URL.createObjectURL(blob));
    },
  };
}

const anyBlob = async (core: Core, sha256: string, width?: number) =>
  (await ownBlob(core, sha256)) ?? (await serverBlob(core, sha256, width));

async function keepPhoto(core: Core, file: Blob, marking?: Marking): Promise<string> {
  const reply = await shrunk(file, undefined, marking);
  if ("failed" in reply) return fail(core, reply.failed);
  const { sha256: photo, bytes, type } = reply;
  try {
    await keepDraftPhoto(await core.db, { photo, bytes, type }, new Date(core.now()).toISOString());
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    return fail(core, isFull(error) ? FULL : NOT_WRITTEN);
  }
  return photo;
}

const FULL = "This phone is full: the photo was not kept. Save the report without it, then make room.";
const NOT_WRITTEN =
  "The phone could not write the photo: it was not kept. Save the report without it; make room, then try again.";
const NO_WORKER = "The photo could not be shrunk on this phone. Save the report without it.";

/** Have a picture shrunk; `longest_px` for one that is smaller than what is kept, `marking` for what is drawn on it. */
export function shrunk(file: Blob, longest_px?: number, marking?: Marking): Promise<ShrinkReply> {
  const ask = { file, longest_px, marking };
  return askWorker<ShrinkAsk, ShrinkReply>(workerUrl, ask, { failed: NO_WORKER });
}

/** Return a photo that is on this phone, or null. */
export async function ownBlob(core: Core, sha256: string): Promise<Blob | null> {
  const held = await photoHere(await core.db, sha256);
  return held && new Blob([held.bytes], { type: held.type });
}

/** Return a photo from the server, or null where it can't be had now. */
export async function serverBlob(core: Core, sha256: string, width?: number): Promise<Blob | null> {
  const token = core.snapshot().speaking?.token;
  if (!token) return null;
  try {
    const query = width ? `?width=${width}` : "";
    const headers = { Authorization: `Bearer ${token}` };
    const response = await core.fetch(`${API}/photos/${sha256}${query}`, {
      headers,
      signal: AbortSignal.timeout(20_000),
    });
    const isPicture = response.ok && response.headers.get("Content-Type")?.startsWith("image/");
    return isPicture ? await response.blob() : null;
  } catch (error) {
    if (error instanceof TypeError || error instanceof DOMException) return null;
    throw error;
  }
}

function remember(urls: Map<string, string>, key: string, url: string): string {
  urls.set(key, url);
  const [oldest] = urls;
  if (urls.size > MOST_URLS && oldest) {
    URL.revokeObjectURL(oldest[1]);
    urls.delete(oldest[0]);
  }
  return url;
}
