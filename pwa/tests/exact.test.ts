/** Exact numbers, text in code-point order and canonical JSON. */

import { describe, expect, test } from "vitest";
import { canonical } from "../src/kit/canonical";
import { sha256 } from "../src/kit/sha256";
import { newEntry } from "../src/flow/entry";
import { byCodePoint, sortedSet, whole } from "../src/kit/code_points";
import { Currency, quantity, total, twoDecimals } from "../src/kit/currency";
import { Fraction, max, sum } from "../src/kit/fraction";

const read = (text: string | number) => Fraction.read(text);
const parts = (one: Fraction) => [one.over, one.under];

describe("fractions", () => {
  test("are in lowest terms, whatever the signs", () => {
    expect(parts(Fraction.of(6, -4))).toEqual([-3n, 2n]);
    expect(parts(Fraction.of(0, 5))).toEqual([0n, 1n]);
    expect(() => Fraction.of(1, 0)).toThrow(RangeError);
  });

  test.each([
    ["2.5", [5n, 2n]],
    ["0.10", [1n, 10n]],
    [".5", [1n, 2n]],
    ["-0.25", [-1n, 4n]],
    ["1e-7", [1n, 10_000_000n]],
    ["2.5E2", [250n, 1n]],
    [" 1_000 ", [1000n, 1n]],
  ])("read %s", (text, expected) => expect(parts(read(text))).toEqual(expected));

  test("a number is taken by its text, so that 0.1 is a tenth", () => expect(parts(read(0.1))).toEqual([1n, 10n]));

  test.each(["", ".", "-", "1/3", "NaN", "Infinity", "0x10"])("refuse %j", (text) =>
    expect(() => read(text)).toThrow(RangeError),
  );

  test("calculate exactly where floats do not", () => {
    expect(sum([read("0.1"), read("0.2")]).compare(read("0.3"))).toBe(0);
    expect(parts(read("1").dividedBy(3).times(Fraction.of(3)))).toEqual([1n, 1n]);
    expect(parts(read("0.5").minus(read("0.75")))).toEqual([-1n, 4n]);
    expect(max(Fraction.of(1, 3), read("0.333333333333333333")).over).toBe(1n);
  });
});

describe("money", () => {
  const [eur, jpy, kwd] = [new Currency("EUR", 2), new Currency("JPY", 0), new Currency("KWD", 3)];

  test.each([
    [eur, "0.005", "0.01"],
    [eur, "0.0049", "0.00"],
    [eur, "2.675", "2.68"], // 2.67 as a float
    [eur, "-0.005", "-0.01"],
    [jpy, "0.5", "1"],
    [jpy, "1499.4999", "1499"],
    [kwd, "1.0005", "1.001"],
  ])("%o: %s is %s", (currency, amount, text) => expect(currency.text(currency.round(read(amount)))).toBe(text));

  test("totals add rounded lines", () => {
    const line = eur.round(Fraction.of(1, 3));
    expect(eur.text(total([line, line, line]))).toBe("0.99");
  });

  test("minutes show two decimals and quantities four, half up", () => {
    expect(twoDecimals(Fraction.of(9, 2))).toBe(4.5);
    expect(twoDecimals(read("1.005"))).toBe(1.01);
    expect(quantity(read("0.33335"))).toBe(0.3334);
    expect(quantity(read("2.00"))).toBe(2);
  });
});

test("text goes by code point, not by UTF-16 unit", () => {
  // U+1D537 is D835 DD37 in UTF-16, and so below U+FF5A there, but not as a code point.
  expect(sortedSet(["\u{1D537}", "ｚ", "z", "ä", "Z", "z", "zz"])).toEqual(["Z", "z", "zz", "ä", "ｚ", "\u{1D537}"]);
  expect(byCodePoint("\u{1D537}", "\u{1D538}")).toBeLessThan(0);
  expect(byCodePoint("same", "same")).toBe(0);
  expect(["\u{1D537}", "ｚ"].sort()).toEqual(["\u{1D537}", "ｚ"]);
});

describe("canonical JSON", () => {
  test("the sample of RFC 8785, section 3.2.2, has the bytes of 3.2.4", () => {
    const sample = {
      // biome-ignore lint/correctness/noPrecisionLoss: the standard's own sample
      numbers: [333333333.33333329, 1e30, 4.5, 2e-3, 0.000000000000000000000000001],
      string: '\u20ac$\u000F\u000aA\'B"\\\\"/',
      literals: [null, true, false],
    };
    const expected =
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],' +
      '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}';
    expect(canonical(sample)).toBe(expected);
  });

  test("keys go by UTF-16 unit: the order of RFC 8785, section 3.2.3", () => {
    const sample = { "\u20ac": 1, "\r": 2, "\ufb33": 3, "1": 4, "\u{1F600}": 5, "\u0080": 6, ö: 7 };
    expect(Object.values(JSON.parse(canonical(sample)))).toHaveLength(7);
    expect(canonical(sample)).toBe('{"\\r":2,"1":4,"\u0080":6,"ö":7,"€":1,"\u{1F600}":5,"\ufb33":3}');
  });

  test("what is undefined is left out, what JSON lacks is refused", () => {
    expect(canonical({ a: undefined, b: null })).toBe('{"b":null}');
    expect(() => canonical([Number.NaN])).toThrow(RangeError);
  });

  // FIPS 180-4, NIST's example values.
  test.each([
    ["abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
    ["", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"],
  ])("SHA-256 of %j", (text, hash) => expect(sha256(text)).toBe(hash));
});

test("a text that a field cut inside a character goes out whole (Unicode 15.0, section 3.9, D73 to D76)", () => {
  const cut = "wheel rim hit 🛞".slice(0, 15);
  expect(cut.length).toBe(15);
  expect(JSON.stringify(cut)).toContain("\\ud83d");
  const speaker = { person: "p-toma", device: "d-1", event: "e", car: "41" };
  const data = { replaces: [], reason: cut };
  const entry = newEntry("report.withdrawn", "r", data, speaker, 0);
  expect(entry.data).toEqual({ replaces: [], reason: "wheel rim hit " });
  expect(new TextDecoder().decode(new TextEncoder().encode(JSON.stringify(entry)))).toBe(JSON.stringify(entry));
  expect(JSON.stringify(entry)).not.toMatch(/\\ud[89a-f]/);
});

test("whole texts stay as they are, halves go wherever they stand, and nothing else changes", () => {
  const kept = { note: "Tür, € 12, 🛞🛞", n: 1, b: false, none: null, list: ["ﬃ", ["𝔷"]] };
  expect(whole(kept)).toEqual(kept);
  expect(whole(["\ud83d", "a\udedeb", "\udede\ud83d", "\ud83d🛞\udede"])).toEqual(["", "ab", "", "🛞"]);
});
