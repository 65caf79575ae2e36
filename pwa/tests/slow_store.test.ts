/** What is said while a browser does not open the store. */

import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { tellIfSlow } from "../src/flow/slow_store";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

function opening(): { said: string[]; opens: () => void; fails: () => void } {
  const said: string[] = [];
  let [opens, fails] = [() => {}, (_: Error) => {}];
  const promise = new Promise<void>((done, failed) => {
    [opens, fails] = [done, failed];
  });
  tellIfSlow(
    promise,
    () => void said.push("told"),
    () => void said.push("taken back"),
  );
  return { said, opens, fails: () => fails(new Error("no store")) };
}

test("a store that opens soon is not spoken of", async () => {
  const { said, opens } = opening();
  opens();
  await vi.advanceTimersByTimeAsync(60_000);
  expect(said).toEqual([]);
});

test("one that never answers is told of once", async () => {
  const { said } = opening();
  await vi.advanceTimersByTimeAsync(9_000);
  expect(said).toEqual([]);
  await vi.advanceTimersByTimeAsync(60_000);
  expect(said).toEqual(["told"]);
});

test.each(["opens", "fails"] as const)("what was told is taken back where it %s after all", async (how) => {
  const one = opening();
  await vi.advanceTimersByTimeAsync(20_000);
  one[how]();
  await vi.advanceTimersByTimeAsync(0);
  expect(one.said).toEqual(["told", "taken back"]);
});
