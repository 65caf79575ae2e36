/**
 * Signatures of entries: ECDSA on P-256 with SHA-256, over the entry's RFC 8785 bytes without `sig`.
 *
 * A signature is the 64 bytes r‖s that WebCrypto gives (IEEE P1363), as base64url without padding.
 */

import type { Entry, PublicKey } from "./api";
import { canonical } from "./canonical";

const CURVE = { name: "ECDSA", namedCurve: "P-256" } as const;
const ALGORITHM = { name: "ECDSA", hash: "SHA-256" } as const;

/** Bytes of each half of a signature, r and s. */
const HALF = 32;
/** The order n of the curve (SEC 2, section 2.4.2). */
const ORDER = 0xffffffff_00000000_ffffffff_ffffffff_bce6faad_a7179e84_f3b9cac2_fc632551n;

/** The key that a device signs with, which never leaves the browser, and the one that others check it by. */
export interface DeviceKey {
  private: CryptoKey;
  public: PublicKey;
}

/** Say whether this page may sign at all: browsers give WebCrypto to trusted addresses only. */
export const canSign = (): boolean => globalThis.crypto?.subtle !== undefined;

/** Make a device's key pair; the private half can't be taken out of the browser. Null where the page may not sign. */
export async function makeKey(): Promise<DeviceKey | null> {
  if (!canSign()) return null;
  const pair = await crypto.subtle.generateKey(CURVE, false, ["sign", "verify"]);
  const { x = "", y = "" } = await crypto.subtle.exportKey("jwk", pair.publicKey);
  return { private: pair.privateKey, public: { kty: "EC", crv: "P-256", x, y } };
}

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

/** Say whether an entry's signature was made with the private half of a key. */
export async function isGood(entry: Entry, key: PublicKey): Promise<boolean> {
  const signature = entry.sig ? bytesOf(entry.sig) : null;
  if (signature?.length !== 2 * HALF) return false;
  const known = await crypto.subtle.importKey("jwk", { ...key }, CURVE, false, ["verify"]);
  return crypto.subtle.verify(ALGORITHM, known, signature, signedBytes(entry));
}

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

function base64url(bytes: Uint8Array): string {
  const text = btoa(String.fromCharCode(...bytes));
  return text.replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
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
