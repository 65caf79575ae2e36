/** Checks signatures of entries: apart from making them, since only what was handed over is checked on a phone. */

import type { Entry, PublicKey } from "./api";
import { ALGORITHM, base64url, CURVE, HALF, signedBytes } from "./signing";

/** Say whether an entry's signature was made with the private half of a key. */
export async function isGood(entry: Entry, key: PublicKey): Promise<boolean> {
  const signature = entry.sig ? bytesOf(entry.sig) : null;
  if (signature?.length !== 2 * HALF) return false;
  const known = await crypto.subtle.importKey("jwk", { ...key }, CURVE, false, ["verify"]);
  return crypto.subtle.verify(ALGORITHM, known, signature, signedBytes(entry));
}

/** Null for text that is no base64url in its one form: spare bits of the last letter are 0 (RFC 4648, section 3.5). */
function bytesOf(text: string): Uint8Array<ArrayBuffer> | null {
  if (!/^[\w-]*$/.test(text)) return null;
  try {
    const letters = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
    const bytes = Uint8Array.from(letters, (one) => one.charCodeAt(0));
    return base64url(bytes) === text ? bytes : null;
  } catch (error) {
    if (error instanceof DOMException) return null;
    throw error;
  }
}
