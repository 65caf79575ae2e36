/** Actions that are loaded with their first call. */

import { expect, test } from "vitest";
import { lazy } from "../src/flow/lazy";
import { UserError } from "../src/kit/user_error";

const MODULE = { add: (core: { n: number }, more: number) => core.n + more, words: "none" };

test("nothing is loaded before the first call, and what the screen says goes through as it is", async () => {
  let loads = 0;
  const add = lazy(async () => {
    loads += 1;
    return MODULE;
  })("add");
  expect(loads).toBe(0);
  expect(await add({ n: 2 }, 3)).toBe(5);
  expect(loads).toBe(1);
});

test("a part that can't be fetched is told in a sentence, and is fetched by the next tap", async () => {
  let here = false;
  const add = lazy(async () => {
    if (!here) throw new TypeError("Failed to fetch dynamically imported module");
    return MODULE;
  })("add");
  const failed = await add({ n: 2 }, 3).catch((error: unknown) => error);
  expect(failed).toBeInstanceOf(UserError);
  expect(String(failed)).toContain("nothing was done");
  here = true;
  expect(await add({ n: 2 }, 3)).toBe(5);
});

test("a fault of the module itself is not taken for a lost signal", async () => {
  const broken = lazy((): Promise<typeof MODULE> => Promise.reject(new RangeError("broken")))("add");
  await expect(broken({ n: 1 }, 1)).rejects.toThrow(RangeError);
});
