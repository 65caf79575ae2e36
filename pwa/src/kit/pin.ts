/** A short PIN: kept as a salted PBKDF2-SHA-256 (RFC 8018), and slower to try after each wrong one. */

/** What is kept of a PIN. `wrong` tries in a row; none counts before `wait_until_ms` (Unix). */
export interface PinRecord {
  salt: Uint8Array<ArrayBuffer>;
  hash: Uint8Array<ArrayBuffer>;
  iterations: number;
  wrong: number;
  wait_until_ms: number;
}

/** Of a PIN kept now. */
export const ITERATIONS = 600_000;
const BYTES = 32;

/** So many wrong tries cost nothing: wet fingers. */
const FREE_TRIES = 2;
const FIRST_WAIT_MS = 5_000;
const LONGEST_WAIT_MS = 300_000;

/** Return what to keep of a PIN. */
export async function keptPin(pin: string, iterations = ITERATIONS): Promise<PinRecord> {
  const salt = crypto.getRandomValues(new Uint8Array(16));
  return { salt, hash: await derived(pin, salt, iterations), iterations, wrong: 0, wait_until_ms: 0 };
}

/** Say whether it is the PIN that was kept. */
export async function isSamePin(pin: string, kept: PinRecord): Promise<boolean> {
  const hash = await derived(pin, kept.salt, kept.iterations);
  return hash.reduce((differs, byte, place) => differs | (byte ^ (kept.hash[place] ?? 0)), 0) === 0;
}

/** Return the record after a try; each wrong one past the free ones doubles the wait. */
export function afterTry(kept: PinRecord, isRight: boolean, now_ms: number): PinRecord {
  if (isRight) return { ...kept, wrong: 0, wait_until_ms: 0 };
  const wrong = kept.wrong + 1;
  const doublings = Math.min(wrong - FREE_TRIES - 1, 10);
  const wait_ms = doublings < 0 ? 0 : Math.min(FIRST_WAIT_MS * 2 ** doublings, LONGEST_WAIT_MS);
  return { ...kept, wrong, wait_until_ms: now_ms + wait_ms };
}

/** Return the seconds to wait before the next try; a clock that was set back makes nobody wait longer than the rule. */
export function secondsToWait(kept: PinRecord, now_ms: number): number {
  const left_ms = Math.min(kept.wait_until_ms - now_ms, LONGEST_WAIT_MS);
  return Math.max(0, Math.ceil(left_ms / 1000));
}

/** Return 32 bytes that follow from a PIN and a salt. */
export async function derived(pin: string, salt: Uint8Array<ArrayBuffer>, iterations: number) {
  const bytes = new TextEncoder().encode(pin);
  if (globalThis.crypto?.subtle) {
    const key = await crypto.subtle.importKey("raw", bytes, "PBKDF2", false, ["deriveBits"]);
    const rule = { name: "PBKDF2", hash: "SHA-256", salt, iterations };
    return new Uint8Array(await crypto.subtle.deriveBits(rule, key, BYTES * 8));
  }
  // A page over plain http has no WebCrypto; the same by hand takes seconds, which a person with a PIN can wait.
  const { pbkdf2Async } = await import("@noble/hashes/pbkdf2.js");
  const { sha256 } = await import("@noble/hashes/sha2.js");
  return Uint8Array.from(await pbkdf2Async(sha256, bytes, salt, { c: iterations, dkLen: BYTES }));
}
