/**
 * UUID version 7, RFC 9562 section 5.7: 48 bits of Unix milliseconds, then random bits.
 *
 * Sample (RFC 9562 appendix A.6): 2022-02-22T14:22:22-05:00, rand_a 0xCC3, rand_b 0x18C4DC0C0C07398F
 * -> 017F22E2-79B0-7CC3-98C4-DC0C0C07398F
 */

/** Ten random bytes: the first two feed rand_a (12 bits), the other eight rand_b (62 bits). */
export type Random = () => Uint8Array;

const HEX = Array.from({ length: 256 }, (_, byte) => byte.toString(16).padStart(2, "0"));

function systemRandom(): Uint8Array {
  return crypto.getRandomValues(new Uint8Array(10));
}

/** Make a UUIDv7 for `now_ms` (Unix milliseconds; clamped to the 48 bits that the format has). */
export function uuid7(now_ms: number, random: Random = systemRandom): string {
  const bytes = new Uint8Array(16);
  writeTime(bytes, now_ms);
  bytes.set(random().subarray(0, 10), 6);
  bytes[6] = 0x70 | ((bytes[6] ?? 0) & 0x0f);
  bytes[8] = 0x80 | ((bytes[8] ?? 0) & 0x3f);
  const hex = Array.from(bytes, (byte) => HEX[byte]).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

function writeTime(bytes: Uint8Array, now_ms: number): void {
  let rest = Math.min(Math.max(Math.trunc(now_ms), 0), 2 ** 48 - 1);
  for (let place = 5; place >= 0; place--) {
    bytes[place] = rest % 256;
    rest = Math.floor(rest / 256);
  }
}
