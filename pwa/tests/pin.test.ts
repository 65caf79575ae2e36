/** PINs: salted, slow to guess, and never what a stranger needs. */

import { expect, test, vi } from "vitest";
import { afterTry, isSamePin, keptPin, secondsToWait } from "../src/kit/pin";
import { isPin } from "../src/kit/pin_shape";
import { AT_MS } from "./making";

test("a PIN has six digits", () => {
  expect(["123456", "000000"].every(isPin)).toBe(true);
  expect(["", "1234", "12345", "1234567", "12a456", "１２３４５６", " 12345"].some(isPin)).toBe(false);
});

test("the PIN is not kept; two people with one PIN have different records", async () => {
  const [one, other] = [await keptPin("4711"), await keptPin("4711")];
  expect(Object.values(one).includes("4711")).toBe(false);
  expect(Buffer.from(one.hash).equals(Buffer.from(other.hash))).toBe(false);
  expect(await isSamePin("4711", one)).toBe(true);
  expect(await isSamePin("4712", one)).toBe(false);
  expect(one.iterations).toBeGreaterThanOrEqual(600_000);
});

// PBKDF2-HMAC-SHA-256 vectors of RFC 7914, section 11, cut to the 32 bytes that are kept.
const KNOWN = "55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc";
const SALT = new TextEncoder().encode("salt");

test("with WebCrypto and without, the hash is the standard's (RFC 7914, section 11)", async () => {
  const record = {
    salt: SALT,
    hash: Uint8Array.from(Buffer.from(KNOWN, "hex")),
    iterations: 1,
    wrong: 0,
    wait_until_ms: 0,
  };
  expect(await isSamePin("passwd", record)).toBe(true);
  vi.stubGlobal("crypto", { getRandomValues: crypto.getRandomValues.bind(crypto) });
  expect(await isSamePin("passwd", record)).toBe(true);
  expect(await isSamePin("passwc", record)).toBe(false);
  vi.unstubAllGlobals();
});

test("wrong tries slow down, a right one ends that, and a clock that jumps locks nobody out for long", async () => {
  let record = await keptPin("4711", 1);
  const waits: number[] = [];
  for (let tries = 0; tries < 12; tries++) {
    record = afterTry(record, false, AT_MS);
    waits.push(secondsToWait(record, AT_MS));
  }
  expect(waits).toEqual([0, 0, 5, 10, 20, 40, 80, 160, 300, 300, 300, 300]);
  expect(secondsToWait(record, AT_MS - 86_400_000)).toBe(300);
  expect(secondsToWait(record, AT_MS + 301_000)).toBe(0);
  expect(secondsToWait(afterTry(record, true, AT_MS), AT_MS)).toBe(0);
});
