/** The SHA-256 of a text or bytes (FIPS 180-4); by itself, so that the first screen need not load it. */

import { sha256 as digest } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";

/** Return the SHA-256 of a text's UTF-8 bytes as 64 lower-case hex digits; needs no secure context, unlike WebCrypto. */
export function sha256(text: string): string {
  return sha256Of(utf8ToBytes(text));
}

/** Return the SHA-256 of bytes as 64 lower-case hex digits. */
export const sha256Of = (bytes: Uint8Array): string => bytesToHex(digest(bytes));
