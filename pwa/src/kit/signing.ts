/**
 * Signatures of entries: ECDSA on P-256 with SHA-256, over the entry's RFC 8785 bytes without `sig`.
 *
 * A signature is the 64 bytes r‖s that WebCrypto gives (IEEE P1363), as base64url without padding.
 */

import type { Entry, PublicKey } from "./api";
import { canonical } from "./canonical";

const CURVE = { name: "ECDSA", namedCurve: "P-256" } as const;
const ALGORITHM = { name: "ECDSA", hash: "SHA-256" } as const;

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
  return base64url(new Uint8Array(await crypto.subtle.sign(ALGORITHM, key, signedBytes(entry))));
}

/** Say whether an entry's signature was made with the private half of a key. */
export async function isGood(entry: Entry, key: PublicKey): Promise<boolean> {
  const signature = entry.sig ? bytesOf(entry.sig) : null;
  if (signature?.length !== 64) return false;
  const known = await crypto.subtle.importKey("jwk", { ...key }, CURVE, false, ["verify"]);
  return crypto.subtle.verify(ALGORITHM, known, signature, signedBytes(entry));
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

/** Null for text that is no base64url. */
function bytesOf(text: string): Uint8Array<ArrayBuffer> | null {
  if (!/^[\w-]*$/.test(text)) return null;
  try {
    return Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (one) => one.charCodeAt(0));
  } catch (error) {
    if (error instanceof DOMException) return null;
    throw error;
  }
}
