/** The bytes of photos and voice notes, from this phone or from the server. */

import { photoHere } from "../store/photos";
import { API } from "../sync/wire";
import type { Core } from "./core";

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
