/** Long work lets all else have its turn, few things are gone through in one go. */

import { afterEach, expect, test, vi } from "vitest";
import { areMany, giveWay, pausesFor } from "../src/kit/pauses";

afterEach(() => {
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

test("a browser with a queue of tasks is asked for its last place, and one without gives a task of its own", async () => {
  const asked: unknown[] = [];
  vi.stubGlobal("scheduler", {
    postTask: async (work: () => void, how: unknown) => {
      asked.push(how);
      work();
    },
  });
  await giveWay();
  expect(asked).toEqual([{ priority: "background" }]);
  vi.stubGlobal("scheduler", undefined);
  const order: string[] = [];
  const given = giveWay().then(() => order.push("given"));
  await Promise.resolve().then(() => order.push("at once"));
  await given;
  expect(order).toEqual(["at once", "given"]);
});

test("a page that nobody sees does not wait: the browser would let it wait for long", async () => {
  const asked: unknown[] = [];
  vi.stubGlobal("scheduler", { postTask: async () => void asked.push("asked") });
  vi.stubGlobal("document", { hidden: true });
  await giveWay();
  expect(asked).toEqual([]);
});

test("of many there is a pause after each portion that took its time, of few there is none", async () => {
  let [given, now] = [0, 0];
  vi.stubGlobal("scheduler", { postTask: async () => void given++ });
  vi.spyOn(performance, "now").mockImplementation(() => now);
  for (const [count, expected] of [
    [10, 0],
    [10_000, 2],
  ] as const) {
    given = 0;
    const pause = pausesFor(count);
    for (const took of [3, 3, 30, 1, 30]) {
      now += took;
      await pause();
    }
    expect(given).toBe(expected);
    expect(areMany(count)).toBe(expected > 0);
  }
});
