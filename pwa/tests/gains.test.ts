/** What minutes buy, row by row. */

import { expect, test } from "vitest";
import { buysNothing, gainsOf } from "../src/view/plan/gains";

const row = (leave_late_min: number, adds: string[], drops: string[] = []) => ({
  leave_late_min,
  to_late_min: leave_late_min,
  penalty_s: leave_late_min * 10,
  adds,
  drops,
  proven: true,
});

test("each row says what it buys over the one before; minutes that change nothing are one row", () => {
  const later = [row(1, []), row(2, ["a"]), row(3, ["a"]), row(4, ["a"]), row(5, ["a", "b"])];
  expect(gainsOf(later).map((one) => [one.leave_late_min, one.to_late_min, one.penalty_s, one.comes_in])).toEqual([
    [1, 1, 10, []],
    [2, 2, 20, ["a"]],
    [3, 4, 30, []],
    [5, 5, 50, ["b"]],
  ]);
  expect(gainsOf(later).map(buysNothing)).toEqual([true, false, true, false]);
});

test("a row that the server says is the same for several minutes stays one", () => {
  const [first] = gainsOf([{ ...row(1, []), to_late_min: 15 }]);
  expect([first?.leave_late_min, first?.to_late_min]).toEqual([1, 15]);
});

test("what drops out for something better is said, and what comes back", () => {
  const gains = gainsOf([row(1, ["a"], ["c"]), row(2, ["b"], [])]);
  expect(gains.map((one) => [one.comes_in, one.drops_out])).toEqual([
    [["a"], ["c"]],
    [["b", "c"], ["a"]],
  ]);
});
