// @vitest-environment happy-dom
/** A long list comes in portions, whole in the end and in its order; a short one is there at once. */

import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { upTo, usePortions } from "../src/view/bits/usePortions";
import { show } from "./ui_dom";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const seen: number[] = [];

function Long({ count }: { count: number }) {
  const drawn = Math.min(usePortions(count), count);
  if (seen.at(-1) !== drawn) seen.push(drawn);
  return null;
}

/** Return how many were drawn, one frame after the other, until nothing more comes. */
async function drawnOf(count: number): Promise<number[]> {
  seen.length = 0;
  show(<Long count={count} />);
  await vi.runAllTimersAsync();
  return seen;
}

test("hundreds of rows come a portion at a time until all are there", async () => {
  const portions = await drawnOf(500);
  expect(portions.at(-1)).toBe(500);
  expect(portions.length).toBeGreaterThan(5);
  const steps = portions.map((drawn, at) => drawn - (portions[at - 1] ?? 0));
  expect(Math.max(...steps)).toBeLessThanOrEqual(60);
});

test("what a screen holds is there at once, and a list that was drawn whole is not drawn in portions again", async () => {
  expect(await drawnOf(30)).toEqual([30]);
  await drawnOf(500);
  seen.length = 0;
  show(<Long count={499} />);
  expect(seen).toEqual([499]);
});

test("groups come whole, in their order, up to the one that reaches the rows", () => {
  const groups = [[1, 2, 3], [4, 5], [6]];
  const sizeOf = (group: number[]) => group.length;
  expect([0, 1, 3, 4, 5, 9].map((rows) => upTo(groups, rows, sizeOf).length)).toEqual([0, 1, 1, 2, 2, 3]);
});
