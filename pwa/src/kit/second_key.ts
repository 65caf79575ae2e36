/** A key that only a PIN unlocks: signs inspections and releases on hold. Kept encrypted (AES-GCM), never in plain. */

import type { PublicKey } from "./api";
import { derived, ITERATIONS } from "./pin";
import { canSign, publicOf } from "./device_key";
import { CURVE } from "./signing";

/** The key as it is kept: its public half, and the private half (PKCS #8) under the PIN. */
export interface SecondKey {
  public: PublicKey;
  locked: { salt: Uint8Array<ArrayBuffer>; iv: Uint8Array<ArrayBuffer>; bytes: ArrayBuffer; iterations: number };
}

/** Make a key under a PIN; null where the page may not sign. */
export async function makeSecondKey(pin: string): Promise<SecondKey | null> {
  if (!canSign()) return null;
  const pair = await crypto.subtle.generateKey(CURVE, true, ["sign", "verify"]);
  const pkcs8 = await crypto.subtle.exportKey("pkcs8", pair.privateKey);
  return { public: await publicOf(pair.publicKey), locked: await locked(pkcs8, pin) };
}

/** Return the private half, to sign with and not to take out. Errors: DOMException where it is not the PIN. */
export async function unlocked({ locked: kept }: SecondKey, pin: string): Promise<CryptoKey> {
  return crypto.subtle.importKey("pkcs8", await opened(kept, pin), CURVE, false, ["sign"]);
}

/** Return the key under another PIN. Errors: DOMException where `old` is not the PIN. */
export async function relocked(key: SecondKey, old: string, pin: string): Promise<SecondKey> {
  return { ...key, locked: await locked(await opened(key.locked, old), pin) };
}

async function locked(pkcs8: ArrayBuffer, pin: string): Promise<SecondKey["locked"]> {
  const [salt, iv] = [16, 12].map((bytes) => crypto.getRandomValues(new Uint8Array(bytes))) as [
    Uint8Array<ArrayBuffer>,
    Uint8Array<ArrayBuffer>,
  ];
  const bytes = await crypto.subtle.encrypt({ name: "AES-GCM", iv }, await under(pin, salt, ITERATIONS), pkcs8);
  return { salt, iv, bytes, iterations: ITERATIONS };
}

async function opened({ salt, iv, bytes, iterations }: SecondKey["locked"], pin: string): Promise<ArrayBuffer> {
  return crypto.subtle.decrypt({ name: "AES-GCM", iv }, await under(pin, salt, iterations), bytes);
}

async function under(pin: string, salt: Uint8Array<ArrayBuffer>, iterations: number): Promise<CryptoKey> {
  const bytes = await derived(pin, salt, iterations);
  return crypto.subtle.importKey("raw", bytes, "AES-GCM", false, ["encrypt", "decrypt"]);
}
