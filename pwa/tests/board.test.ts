/** The wall board: how large its letters are, and which lines stand on which page. */

import { expect, test } from "vitest";
import { capitalPx, heightMm, readFromMm, screenMm } from "../src/view/board/legible";
import { pagesOf } from "../src/view/board/pages";

// ISO 9241-303:2011 (preferred character height of 20 to 22 minutes of arc); the sums by h = 2·d·tan(a/2), done by hand.
test("20 minutes of arc at 5 m are 29.09 mm, and 78.8 px on a 32-inch screen of 1080 lines", () => {
  expect(heightMm(5_000, 20)).toBeCloseTo(29.09, 2);
  expect(screenMm(32).width_mm).toBeCloseTo(708.4, 1);
  expect(screenMm(32).height_mm).toBeCloseTo(398.5, 1);
  expect(capitalPx(5, 1920, 1080)).toBeCloseTo(78.8, 1);
  expect(capitalPx(2, 1920, 1080)).toBeCloseTo((78.8 * 2) / 5, 1);
});

test("a larger screen is read from further, a narrower one by its width", () => {
  expect(readFromMm(5, 32)).toBeCloseTo(5_000, 6);
  expect(readFromMm(5, 64)).toBeCloseTo(10_000, 6);
  expect(capitalPx(5, 390, 844)).toBeCloseTo((78.8 * 390) / 1920, 1);
});

test("every line comes by on some page, in order, and no page is higher than the room", () => {
  expect(pagesOf([100, 100, 100, 100, 100], 250)).toEqual([[0, 1], [2, 3], [4]]);
  expect(pagesOf([100, 200, 50, 50], 250)).toEqual([[0], [1, 2], [3]]);
  expect(pagesOf([100], 250)).toEqual([[0]]);
  expect(pagesOf([], 250)).toEqual([]);
});

test("a line that is higher than the room has a page of its own, and is not left out", () => {
  expect(pagesOf([50, 300, 50], 250)).toEqual([[0], [1], [2]]);
});
