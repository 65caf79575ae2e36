/** The example beside an agreement's terms says what the server would charge: tests/unit/test_agreement_examples.py. */

import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { currencyOf, exampleOf } from "../src/setup/agreement_example";

interface Case {
  why: string;
  terms: Record<string, string>;
  size: string;
  hits: number;
  damage: string;
  tax: string;
  rest: string;
}

const CASES = JSON.parse(
  readFileSync(new URL("../../tests/data/agreement_examples.json", import.meta.url), "utf8"),
) as Case[];
const EUR = currencyOf("EUR");

test.each(CASES)("$why", ({ terms, size, hits, damage, tax, rest }) => {
  const made = exampleOf(terms, size, hits, EUR);
  expect(made && [made.damage, made.tax, made.rest].map((line) => EUR.text(line))).toEqual([damage, tax, rest]);
});

test("what does not read as a number gives no example", () => {
  expect(exampleOf({}, "", 1, EUR)).toBeNull();
  expect(exampleOf({}, "-5", 1, EUR)).toBeNull();
  expect(exampleOf({ excess: "much" }, "1200", 1, EUR)).toBeNull();
  expect(exampleOf({ excess: "12,50" }, "1200", 1, EUR)?.damage).toBe(1250n);
});

test("a currency has its own decimals, and an unknown one two", () => {
  expect([currencyOf("JPY"), currencyOf("EUR"), currencyOf("")].map((one) => one.decimals)).toEqual([0, 2, 2]);
});
