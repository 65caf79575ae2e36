/** The wall board: how large its letters are, and which lines have room. */

import { expect, test } from "vitest";
import { shownOf } from "../src/view/board/fit";
import { capitalPx, heightMm, readFromMm, screenMm } from "../src/view/board/legible";

// ISO 9241-303:2011 (preferred character height of 20 to 22 minutes of arc); the sums by h = 2·d·tan(a/2), done by hand.
test("20 minutes of arc at 5 m are 29.09 mm, and 78.8 px on a 32-inch screen of 1080 lines", () => {
  expect(heightMm(5_000, 20)).toBeCloseTo(29.09, 2);
  expect(screenMm(32).width_mm).toBeCloseTo(708.4, 1);
  expect(screenMm(32).height_mm).toBeCloseTo(398.5, 1);
  expect(capitalPx(1920, 1080)).toBeCloseTo(78.8, 1);
});

test("a larger screen is read from further, a narrower one by its width", () => {
  expect(readFromMm(32)).toBeCloseTo(5_000, 6);
  expect(readFromMm(64)).toBeCloseTo(10_000, 6);
  expect(capitalPx(390, 844)).toBeCloseTo((78.8 * 390) / 1920, 1);
});

test("two people, the newest report and what comes next have the first lines; the rest goes round", () => {
  const rows = (count: number) => Array.from({ length: count }, () => 100);
  expect(shownOf({ now: rows(9), next: rows(9), reports: rows(9) }, 400)).toEqual({ now: 2, next: 1, reports: 1 });
  expect(shownOf({ now: rows(9), next: rows(9), reports: rows(9) }, 650)).toEqual({ now: 3, next: 1, reports: 2 });
  expect(shownOf({ now: rows(1), next: rows(1), reports: rows(9) }, 600)).toEqual({ now: 1, next: 1, reports: 4 });
});

test("behind a line that has no room none of its part is shown", () => {
  expect(shownOf({ now: [500, 50], next: [100], reports: [100] }, 300)).toEqual({ now: 0, next: 1, reports: 1 });
});
