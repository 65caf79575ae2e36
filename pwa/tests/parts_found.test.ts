/** A part is found by some letters of it. */

import { expect, test } from "vitest";
import { partsFound } from "../src/report/parts_found";

const part = (name: string, description: string) => ({ part: name, description, unit_cost: null, supplier: "" });
const PARTS = [
  part("arm-lf", "Lower arm, left"),
  part("arm-rf", "Lower arm, right"),
  part("warm-1", "Tyre warmer"),
  part("frein-2", "Étrier de frein"),
  part("bolt-m8", ""),
] as unknown as Parameters<typeof partsFound>[0];
const found = (typed: string) => partsFound(PARTS, typed).map((one) => one.part);

test("by any letters of its words or its number; what begins with them comes first", () => {
  expect(found("arm")).toEqual(["arm-lf", "arm-rf", "warm-1"]);
  expect(found("m8")).toEqual(["bolt-m8"]);
});

test("each word narrows it, in whatever order", () => {
  expect(found("right arm")).toEqual(["arm-rf"]);
  expect(found("arm rear")).toEqual([]);
});

test("capitals and accents need not be typed", () => {
  expect(found("ETRIER")).toEqual(["frein-2"]);
});

test("nothing typed, nothing found", () => {
  expect(found("  ")).toEqual([]);
});
