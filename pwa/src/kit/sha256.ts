/** The SHA-256 of a text (FIPS 180-4), for the queue's hash; by itself, so that the first screen need not load it. */

import { sha256 as digest } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";

/** Return the SHA-256 of a text's UTF-8 bytes as 64 lower-case hex digits; needs no secure context, unlike WebCrypto. */
export function sha256(text: string): string {
  return bytesToHex(digest(utf8ToBytes(text)));
}
