/** Bytes as text for a QR code's alphanumeric mode, which any reader gives back unchanged (RFC 9285). */

const ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
const VALUES = new Map([...ALPHABET].map((character, value) => [character, value]));
const BASE = 45;

/** Return bytes as text: three characters for two bytes, two for a last one alone. */
export function base45(bytes: Uint8Array): string {
  let text = "";
  for (let place = 0; place < bytes.length; place += 2) {
    const [first = 0, second] = bytes.subarray(place, place + 2);
    text += second === undefined ? digits(first, 2) : digits(first * 256 + second, 3);
  }
  return text;
}

function digits(value: number, count: number): string {
  let text = "";
  for (let rest = value; text.length < count; rest = Math.floor(rest / BASE)) text += ALPHABET[rest % BASE];
  return text;
}

/** Return the bytes of a text, or null where it is none that `base45` makes. */
export function fromBase45(text: string): Uint8Array | null {
  if (text.length % 3 === 1) return null;
  const bytes: number[] = [];
  for (let place = 0; place < text.length; place += 3) {
    const group = [...text.slice(place, place + 3)].map((character) => VALUES.get(character) ?? Number.NaN);
    const value = group.reduceRight((sum, digit) => sum * BASE + digit, 0);
    const count = group.length - 1;
    if (!(value < 256 ** count)) return null;
    if (count === 2) bytes.push(value >> 8);
    bytes.push(value & 255);
  }
  return Uint8Array.from(bytes);
}
