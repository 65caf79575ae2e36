/** Photos for the screens: shrunk and kept, or fetched to be looked at. */

import type { Marking } from "../kit/ring";
import type { NotShrunk, ShrinkAsk, ShrinkReply } from "../kit/shrink";
import { keepDraftPhoto, photoHere } from "../store/photos";
import { API } from "../sync/wire";
import workerUrl from "../worker/photo?worker&url";
import type { Core } from "./core";
import type { Actions } from "./model";
import { fail, isFull } from "./save";
import { askWorker } from "./worker";
import { said } from "../kit/said";

/** Object URLs hold their pictures in memory: the oldest go when there are more than so many. */
const MOST_URLS = 80;

/** Make the actions. */
export function photoActions(
  core: Core,
): Pick<Actions, "keepPhoto" | "markPhoto" | "photoUrl" | "takeShared" | "keepVoice" | "voiceSound"> {
  const urls = new Map<string, string>();
  return {
    keepPhoto: (file) => keepPhoto(core, file),
    keepVoice: async (...said) => (await import("./voices")).keepVoice(core, ...said),
    voiceSound: async (voice) => (await import("./voices")).voiceSound(core, voice),
    takeShared: async () => (await import("./shared")).takeShared((file) => keepPhoto(core, file)),
    async markPhoto(sha256, marking) {
      const blob = await anyBlob(core, sha256);
      return blob ? keepPhoto(core, blob, marking) : fail(core, said.photoNotHere);
    },
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
  if ("failed" in reply) return fail(core, notShrunk(reply));
  const { sha256: photo, bytes, type } = reply;
  try {
    await keepDraftPhoto(await core.db, { photo, bytes, type }, new Date(core.now()).toISOString());
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    return fail(core, isFull(error) ? said.photoFull : said.photoNotWritten);
  }
  return photo;
}

/** Return why a picture was not made small, in words. */
export const notShrunk = ({ failed, why = "" }: { failed: NotShrunk; why?: string }): string =>
  said.notShrunk[failed](why);

/** Have a picture shrunk; `longest_px` for one that is smaller than what is kept, `marking` for what is drawn on it. */
export function shrunk(file: Blob, longest_px?: number, marking?: Marking): Promise<ShrinkReply> {
  const ask = { file, longest_px, marking };
  return askWorker<ShrinkAsk, ShrinkReply>(workerUrl, ask, { failed: "no-worker" });
}

/** Return a photo that is on this phone, or null. */
export async function ownBlob(core: Core, sha256: string): Promise<Blob | null> {
  const held = await photoHere(await core.db, sha256);
  return held && new Blob([held.bytes], { type: held.type });
}

/** Return a photo from the server, or a voice note (`kind`: "audio/"); null where it can't be had now. */
export async function serverBlob(core: Core, sha256: string, width?: number, kind = "image/"): Promise<Blob | null> {
  const token = core.snapshot().speaking?.token;
  if (!token) return null;
  try {
    const query = width ? `?width=${width}` : "";
    const headers = { Authorization: `Bearer ${token}` };
    const response = await core.fetch(`${API}/photos/${sha256}${query}`, {
      headers,
      signal: AbortSignal.timeout(20_000),
    });
    const isIt = response.ok && response.headers.get("Content-Type")?.startsWith(kind);
    return isIt ? await response.blob() : null;
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
