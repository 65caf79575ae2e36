/** Ids, times and money against values from outside. */

import { expect, test } from "vitest";
import { amountOf, money } from "../src/kit/money";
import { localIso, minutesAndSeconds, officialMs } from "../src/kit/time";
import { ownScript } from "../src/kit/trusted";
import { uuid7 } from "../src/kit/uuid7";

test("uuid7 is the example of RFC 9562, appendix A.6", () => {
  // Tuesday, February 22, 2022 2:22:22.00 PM GMT-05:00; rand_a = 0xCC3; rand_b = 0x18C4DC0C0C07398F.
  const now_ms = Date.parse("2022-02-22T14:22:22.00-05:00");
  const random = () => Uint8Array.of(0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f);
  expect(uuid7(now_ms, random)).toBe("017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
});

test("uuid7 takes version and variant from nobody's chance, and later ids sort later", () => {
  const ones = () => new Uint8Array(10).fill(0xff);
  const zeros = () => new Uint8Array(10);
  expect(uuid7(1, ones)).toBe("00000000-0001-7fff-bfff-ffffffffffff");
  expect(uuid7(1, zeros)).toBe("00000000-0001-7000-8000-000000000000");
  expect(uuid7(1_000_000, ones) < uuid7(1_000_001, zeros)).toBe(true);
});

test("uuid7 holds clocks that say 1970 or the year 10889", () => {
  const zeros = () => new Uint8Array(10);
  expect(uuid7(-5, zeros)).toBe("00000000-0000-7000-8000-000000000000");
  expect(uuid7(2 ** 49, zeros)).toBe("ffffffff-ffff-7000-8000-000000000000");
});

test("times carry their offset (RFC 3339, section 5.6; both from its section 5.8)", () => {
  expect(localIso(Date.parse("1996-12-19T16:39:57-08:00"), -480)).toBe("1996-12-19T16:39:57-08:00");
  expect(localIso(Date.parse("1985-04-12T23:20:50.52Z"), 0)).toBe("1985-04-12T23:20:50+00:00");
  expect(localIso(Date.parse("2026-05-16T10:42:07+05:30"), 330)).toBe("2026-05-16T10:42:07+05:30");
});

test("an official clock time means the day nearest to when it was typed", () => {
  expect(officialMs("13:02", "2026-05-16T13:04:10+02:00")).toBe(Date.parse("2026-05-16T13:02:00+02:00"));
  expect(officialMs("00:02", "2026-05-16T23:58:00+02:00")).toBe(Date.parse("2026-05-17T00:02:00+02:00"));
  expect(officialMs("23:58", "2026-05-17T00:01:00Z")).toBe(Date.parse("2026-05-16T23:58:00Z"));
  expect(officialMs("2026-05-16T13:02:00+02:00", "2026-05-16T09:00:00Z")).toBe(Date.parse("2026-05-16T11:02:00Z"));
  expect(officialMs("soon", "2026-05-16T13:04:10+02:00")).toBeNull();
});

test("money stays text", () => {
  expect(money("1234567.50", "EUR")).toBe("1,234,567.50 EUR");
  expect(money("-3.20", "EUR")).toBe("−3.20 EUR");
  expect(amountOf(" -12,5 ")).toBe("-12.5");
  expect(amountOf("1.234,50")).toBeNull();
  expect(amountOf("1e3")).toBeNull();
});

test("the Trusted Types policy lets nothing through but the app's own workers", () => {
  expect(ownScript("/sw.js", false)).toBe("/sw.js");
  expect(ownScript("/assets/photo-Sy-qZjGn.js", false)).toBe("/assets/photo-Sy-qZjGn.js");
  const others = [
    "https://elsewhere.invalid/sw.js",
    "//elsewhere.invalid/sw.js",
    "/sw.js?x",
    "/assets/../sw.js",
    "data:,1",
  ];
  for (const url of others) expect(() => ownScript(url, false), url).toThrow(TypeError);
});

test.each([
  [0, "0 s"],
  [90, "90 s"],
  [120, "2 min"],
  [160, "2 min 40 s"],
  [1500, "25 min"],
])("a penalty of %d s is %s", (seconds, said) => {
  expect(minutesAndSeconds(seconds)).toBe(said);
});
