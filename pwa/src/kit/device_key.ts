/** Makes the key that a device signs with: once, at joining, apart from what each visit needs. */

import type { PublicKey } from "./api";
import { CURVE } from "./signing";

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
  return { private: pair.privateKey, public: await publicOf(pair.publicKey) };
}

/** Return a public key as others check by it. */
export async function publicOf(key: CryptoKey): Promise<PublicKey> {
  const { x = "", y = "" } = await crypto.subtle.exportKey("jwk", key);
  return { kty: "EC", crv: "P-256", x, y };
}
