/** Signatures against the standards' own values, and against what Python's side signs and refuses. */

import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Entry, PublicKey } from "../src/kit/api";
import { canonical } from "../src/kit/canonical";
import { makeKey } from "../src/kit/device_key";
import { signatureOf, signedBytes, withLowS } from "../src/kit/signing";
import { isGood } from "../src/kit/verifying";
import { entry } from "./making";

interface Vectors {
  keys: Record<string, PublicKey>;
  cases: { name: string; key: string; good: boolean; signed: string; entry: Entry }[];
}
const vectors: Vectors = JSON.parse(
  readFileSync(new URL("../../schemas/vectors/signatures.json", import.meta.url), "utf8"),
);

test("the sample of RFC 8785, section 3.2.2, has the bytes of section 3.2.4", () => {
  const sample = JSON.parse(
    '{"numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],' +
      ' "string": "\\u20ac$\\u000F\\u000aA\\u0027\\u0042\\u0022\\u005c\\\\\\"\\/", "literals": [null, true, false]}',
  );
  const bytes =
    "7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e" +
    "756d62657273223a5b3333333333333333332e333333333333332c31652b3330" +
    "2c342e352c302e3030322c31652d32375d2c22737472696e67223a22e282ac24" +
    "5c75303030665c6e4127425c225c5c5c5c5c222f227d";
  expect(Buffer.from(canonical(sample)).toString("hex")).toBe(bytes);
});

test("names ascend by UTF-16 code unit (RFC 8785, section 3.2.3)", () => {
  const sample = {
    "\u20ac": "Euro Sign",
    "\r": "Carriage Return",
    "\ufb33": "Hebrew Letter Dalet With Dagesh",
    "1": "One",
    "\u{1f600}": "Emoji: Grinning Face",
    "\u0080": "Control",
    "\u00f6": "Latin Small Letter O With Diaeresis",
  };
  // Read off the text itself: an object puts names that look like numbers first.
  const values = [...canonical(sample).matchAll(/:"([^"]+)"/g)].map((match) => match[1]);
  expect(values).toEqual([
    "Carriage Return",
    "One",
    "Control",
    "Latin Small Letter O With Diaeresis",
    "Euro Sign",
    "Emoji: Grinning Face",
    "Hebrew Letter Dalet With Dagesh",
  ]);
});

// RFC 8785, appendix B: the bits of IEEE 754 doubles and their JSON.
const NUMBERS: [bits: string, text: string][] = [
  ["0000000000000000", "0"],
  ["8000000000000000", "0"],
  ["0000000000000001", "5e-324"],
  ["8000000000000001", "-5e-324"],
  ["7fefffffffffffff", "1.7976931348623157e+308"],
  ["4340000000000000", "9007199254740992"],
  ["4430000000000000", "295147905179352830000"],
  ["44b52d02c7e14af5", "9.999999999999997e+22"],
  ["44b52d02c7e14af6", "1e+23"],
  ["444b1ae4d6e2ef4e", "999999999999999700000"],
  ["444b1ae4d6e2ef50", "1e+21"],
  ["3eb0c6f7a0b5ed8c", "9.999999999999997e-7"],
  ["3eb0c6f7a0b5ed8d", "0.000001"],
  ["41b3de4355555553", "333333333.3333332"],
  ["becbf647612f3696", "-0.0000033333333333333333"],
  ["43143ff3c1cb0959", "1424953923781206.2"],
];

test.each(NUMBERS)("number %s is written %s (RFC 8785, appendix B)", (bits, text) => {
  expect(canonical([Buffer.from(bits, "hex").readDoubleBE()])).toBe(`[${text}]`);
});

test("what JSON has no number for is refused", () => {
  for (const number of [Number.NaN, Number.POSITIVE_INFINITY]) expect(() => canonical([number])).toThrow(RangeError);
});

test.each(vectors.cases)("$name: as Python has it", async ({ key, good, signed, entry }) => {
  expect(new TextDecoder().decode(signedBytes(entry))).toBe(signed);
  expect(await isGood(entry, vectors.keys[key] as PublicKey)).toBe(good);
});

test("what a device signs is good, whatever the order of names, and nothing else is", async () => {
  const [mine, other] = [await makeKey(), await makeKey()];
  if (!mine || !other) throw new Error("this Node has WebCrypto");
  const one = entry("report.filed", { zone: "front-left", note: "Tür, € 12, 😀", km: 0.1 });
  const sig = await signatureOf(one, mine.private);
  expect(sig).toMatch(/^[\w-]{86}$/);
  expect(await isGood({ ...one, sig }, mine.public)).toBe(true);
  const turned = Object.fromEntries(Object.entries({ ...one, sig }).reverse()) as unknown as Entry;
  expect(await isGood(turned, mine.public)).toBe(true);
  expect(await isGood({ ...one, sig }, other.public)).toBe(false);
  expect(await isGood({ ...one, sig, car: "42" }, mine.public)).toBe(false);
  for (const bad of ["", "A".repeat(86), "!".repeat(86), sig.slice(1), undefined]) {
    expect(await isGood({ ...one, sig: bad }, mine.public)).toBe(false);
  }
});

// FIPS 186-5 lets a signature have either of s and n - s: the order n of P-256 is that of SEC 2, section 2.4.2.
const ORDER = BigInt("0xffffffff00000000ffffffffffffffffbce6faada7179e84f3b9cac2fc632551");
const sOf = (sig: string) => BigInt(`0x${Buffer.from(sig, "base64url").subarray(32).toString("hex")}`);

test("of the two signatures that fit, a phone writes the one with the lower s; both are good", async () => {
  const key = await makeKey();
  if (!key) throw new Error("this Node has WebCrypto");
  for (let i = 0; i < 24; i++) {
    const one = entry("report.filed", { zone: "roof" });
    const sig = await signatureOf(one, key.private);
    expect(sOf(sig) * 2n < ORDER).toBe(true);
    const s = (ORDER - sOf(sig)).toString(16).padStart(64, "0");
    const turned = Buffer.concat([Buffer.from(sig, "base64url").subarray(0, 32), Buffer.from(s, "hex")]);
    expect(await isGood({ ...one, sig: turned.toString("base64url") }, key.public)).toBe(true);
    expect(Buffer.from(withLowS(turned)).toString("base64url")).toBe(sig);
  }
});

test("the spare bits of the last letter are 0: one signature is written in one way", async () => {
  const key = await makeKey();
  if (!key) throw new Error("this Node has WebCrypto");
  const one = entry("report.filed", { zone: "roof" });
  const sig = await signatureOf(one, key.private);
  // 64 bytes fill 85 letters and 2 bits of the 86th: the lower 4 say nothing.
  const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  const last = letters.indexOf(sig.at(-1) ?? "");
  for (let bits = 1; bits < 16; bits++) {
    const spare = sig.slice(0, -1) + letters[last + bits];
    expect(Buffer.from(spare, "base64url")).toEqual(Buffer.from(sig, "base64url"));
    expect(await isGood({ ...one, sig: spare }, key.public)).toBe(false);
  }
});

test("the private key can't be taken out of the browser", async () => {
  const key = await makeKey();
  if (!key) throw new Error("this Node has WebCrypto");
  expect(key.private.extractable).toBe(false);
  await expect(crypto.subtle.exportKey("jwk", key.private)).rejects.toThrow();
  expect(Object.keys(key.public).toSorted()).toEqual(["crv", "kty", "x", "y"]);
});
