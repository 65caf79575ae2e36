/** WebCrypto's part that the app asks for, done at once and by seeded chance: a real one answers when it likes. */

import { createHash } from "node:crypto";
import type { Chance } from "./chance";

/** The curve P-256: its prime, its order and its base point (SEC 2, section 2.4.2). */
const P = 0xffffffff_00000001_00000000_00000000_00000000_ffffffff_ffffffff_ffffffffn;
const N = 0xffffffff_00000000_ffffffff_ffffffff_bce6faad_a7179e84_f3b9cac2_fc632551n;
const G = {
  x: 0x6b17d1f2_e12c4247_f8bce6e5_63a440f2_77037d81_2deb33a0_f4a13945_d898c296n,
  y: 0x4fe342e2_fe1a7f9b_8ee7eb4a_7c0f9e16_2bce3357_6b315ece_cbb64068_37bf51f5n,
};

interface Point {
  x: bigint;
  y: bigint;
}
interface Pair {
  privateKey: { secret: bigint };
  publicKey: Point;
}

const mod = (value: bigint, by: bigint) => ((value % by) + by) % by;

function inverse(value: bigint, by: bigint): bigint {
  let [a, b, x, y] = [mod(value, by), by, 1n, 0n];
  while (a > 1n) {
    const times = a / b;
    [a, b] = [b, a % b];
    [x, y] = [y, x - times * y];
  }
  return mod(x, by);
}

function add(one: Point | null, other: Point): Point | null {
  if (one === null) return other;
  if (one.x === other.x && one.y !== other.y) return null;
  const slope =
    one.x === other.x
      ? (3n * one.x * one.x - 3n) * inverse(2n * one.y, P)
      : (other.y - one.y) * inverse(other.x - one.x, P);
  const x = mod(slope * slope - one.x - other.x, P);
  return { x, y: mod(slope * (one.x - x) - one.y, P) };
}

/** For each hex digit of a number, its sixteen multiples of the base point. */
const digits: (Point | null)[][] = [];

function multiples(): (Point | null)[][] {
  let base: Point = G;
  while (digits.length < 64) {
    const row: (Point | null)[] = [null];
    for (let times = 1; times <= 16; times++) row.push(add(row[times - 1] ?? null, base));
    base = row[16] as Point;
    digits.push(row);
  }
  return digits;
}

function times(secret: bigint): Point {
  let sum: Point | null = null;
  let rest = secret;
  for (const row of multiples()) {
    const next: Point | null = row[Number(rest & 15n)] ?? null;
    if (next) sum = add(sum, next);
    rest >>= 4n;
  }
  return sum as Point;
}

const numberOf = (bytes: Uint8Array) => BigInt(`0x${Buffer.from(bytes).toString("hex")}`);
const bytesOf = (value: bigint) => Buffer.from(value.toString(16).padStart(64, "0"), "hex");
const sha256 = (...parts: Uint8Array[]) => {
  const hash = createHash("sha256");
  for (const part of parts) hash.update(part);
  return hash.digest();
};

const exact = (bytes: Uint8Array) => new Uint8Array(bytes).buffer;

/** Hide at most 32 bytes, or bring them to light again. */
function masked(bytes: Uint8Array, key: Uint8Array, iv: Uint8Array): Uint8Array {
  const mask = sha256(key, iv);
  return bytes.map((byte, place) => byte ^ (mask[place] ?? 0));
}

/** Return a `crypto` that a phone's code can't tell from the real one by what it gives. */
export function cryptoOf(chance: Chance) {
  const random = <Bytes extends ArrayBufferView>(into: Bytes): Bytes => {
    const bytes = new Uint8Array(into.buffer, into.byteOffset, into.byteLength);
    for (let place = 0; place < bytes.length; place++) bytes[place] = chance.whole(0, 255);
    return into;
  };
  const subtle = {
    digest: async (_: string, data: Uint8Array) => exact(sha256(data)),
    generateKey: async (): Promise<Pair> => {
      const secret = mod(numberOf(random(new Uint8Array(32))), N - 1n) + 1n;
      return { privateKey: { secret }, publicKey: times(secret) };
    },
    exportKey: async (form: string, key: Point | Pair["privateKey"]) =>
      "secret" in key
        ? exact(bytesOf(key.secret))
        : form === "jwk" && { x: base64(bytesOf(key.x)), y: base64(bytesOf(key.y)) },
    sign: async (_: unknown, key: { secret: bigint }, data: Uint8Array) => sign(key.secret, data),
    importKey: async (form: string, data: Uint8Array) =>
      form === "pkcs8" ? { secret: numberOf(new Uint8Array(data)) } : data,
    encrypt: async ({ iv }: { iv: Uint8Array }, key: Uint8Array, data: ArrayBuffer) => {
      const plain = new Uint8Array(data);
      return exact(Buffer.concat([masked(plain, key, iv), sha256(key, iv, plain)]));
    },
    decrypt: async ({ iv }: { iv: Uint8Array }, key: Uint8Array, data: ArrayBuffer) => {
      const bytes = new Uint8Array(data);
      const plain = masked(bytes.subarray(0, -32), key, iv);
      const isRight = sha256(key, iv, plain).equals(bytes.subarray(-32));
      if (!isRight) throw new DOMException("it is another key", "OperationError");
      return exact(plain);
    },
    // A PIN's long calculation is no part of any history: what counts is that the same PIN gives the same bits.
    deriveBits: async ({ salt }: { salt: Uint8Array }, key: Uint8Array) => exact(sha256(salt, key)),
  };
  return { getRandomValues: random, subtle };
}

/** The one-time number is made of the secret and the message alone, so that a history's bytes are always the same. */
function sign(secret: bigint, data: Uint8Array): ArrayBuffer {
  const message = sha256(data);
  const once = mod(numberOf(sha256(bytesOf(secret), message)), N - 1n) + 1n;
  const r = mod(times(once).x, N);
  const s = mod(inverse(once, N) * (numberOf(message) + r * secret), N);
  return exact(Buffer.concat([bytesOf(r), bytesOf(s)]));
}

const base64 = (bytes: Buffer) => bytes.toString("base64url");
