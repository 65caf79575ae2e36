/** WebCrypto's part that the app asks for, done at once and by seeded chance: a real one answers when it likes. */

import { createECDH, createHash } from "node:crypto";
import type { Chance } from "./chance";

/** The order of the curve P-256 (SEC 2, section 2.4.2). */
const N = 0xffffffff_00000000_ffffffff_ffffffff_bce6faad_a7179e84_f3b9cac2_fc632551n;

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

/** Return the so-many-fold of the base point, which is the public key of that secret. */
function times(secret: bigint): Point {
  const curve = createECDH("prime256v1");
  curve.setPrivateKey(bytesOf(secret));
  const point = curve.getPublicKey();
  return { x: numberOf(point.subarray(1, 33)), y: numberOf(point.subarray(33)) };
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
