/** What minutes buy, row by row. */

import { expect, test } from "vitest";
import { gainsOf } from "../src/view/plan/gains";

const row = (leave_late_min: number, adds: string[], drops: string[] = []) => ({
  leave_late_min,
  penalty_s: leave_late_min * 10,
  adds,
  drops,
  proven: true,
});

test("each row says what it buys over the one before; a minute that buys nothing has none", () => {
  const gains = gainsOf([row(1, []), row(2, ["a"]), row(3, ["a"]), row(4, ["a", "b"])]);
  expect(gains.map((one) => [one.leave_late_min, one.penalty_s, one.comes_in])).toEqual([
    [2, 20, ["a"]],
    [4, 40, ["b"]],
  ]);
});

test("what drops out for something better is said, and what comes back", () => {
  const gains = gainsOf([row(1, ["a"], ["c"]), row(2, ["b"], [])]);
  expect(gains.map((one) => [one.comes_in, one.drops_out])).toEqual([
    [["a"], ["c"]],
    [["b", "c"], ["a"]],
  ]);
});
