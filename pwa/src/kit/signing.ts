/**
 * Signatures of entries: ECDSA on P-256 with SHA-256, over the entry's RFC 8785 bytes without `sig`.
 *
 * A signature is the 64 bytes r‖s that WebCrypto gives (IEEE P1363), as base64url without padding.
 */

import type { Entry } from "./api";
import { canonical } from "./canonical";

export const CURVE = { name: "ECDSA", namedCurve: "P-256" } as const;
export const ALGORITHM = { name: "ECDSA", hash: "SHA-256" } as const;

/** Bytes of each half of a signature, r and s. */
export const HALF = 32;
/** The order n of the curve (SEC 2, section 2.4.2). */
const ORDER = 0xffffffff_00000000_ffffffff_ffffffff_bce6faad_a7179e84_f3b9cac2_fc632551n;

/** Return the signature of an entry. */
export async function signatureOf(entry: Entry, key: CryptoKey): Promise<string> {
  return base64url(withLowS(new Uint8Array(await crypto.subtle.sign(ALGORITHM, key, signedBytes(entry)))));
}

/** Return the one of the two signatures (r, s) and (r, n - s) that has the lower s: both are good, browsers give either. */
export function withLowS(signature: Uint8Array): Uint8Array {
  const s = numberOf(signature.subarray(HALF));
  if (s * 2n <= ORDER) return signature;
  const digits = (ORDER - s).toString(16).padStart(2 * HALF, "0");
  const low = Uint8Array.from(digits.match(/../g) ?? [], (byte) => Number.parseInt(byte, 16));
  return Uint8Array.from([...signature.subarray(0, HALF), ...low]);
}

const numberOf = (bytes: Uint8Array) => bytes.reduce((sum, byte) => sum * 256n + BigInt(byte), 0n);

/** Say whether two entries are one: of one signature anybody can make another that fits, so it makes no difference. */
export function saysTheSame(one: Entry, other: Entry): boolean {
  const { sig: _, ...content } = one;
  const { sig: __, ...others } = other;
  return canonical(content) === canonical(others);
}

/** Return what is signed. */
export function signedBytes(entry: Entry): Uint8Array<ArrayBuffer> {
  const { sig: _, ...rest } = entry;
  return new TextEncoder().encode(canonical(rest));
}

/** Return bytes as base64url without padding. */
export function base64url(bytes: Uint8Array): string {
  const text = btoa(String.fromCharCode(...bytes));
  return text.replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}
