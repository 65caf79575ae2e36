/** A page that nobody sees: its clock stands, and it is told when it is shown again. */

import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { watchPage } from "../src/flow/page";

let page: EventTarget & { visibilityState: string };
let told: string[];

beforeEach(() => {
  vi.useFakeTimers();
  page = Object.assign(new EventTarget(), { visibilityState: "visible" });
  vi.stubGlobal("document", page);
  vi.stubGlobal("addEventListener", () => {});
  told = [];
  watchPage({
    onChance: () => told.push("chance"),
    onHidden: () => told.push("hidden"),
    onAddress: () => told.push("address"),
    onTick: () => told.push("tick"),
  });
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

function becomes(state: "visible" | "hidden") {
  page.visibilityState = state;
  page.dispatchEvent(new Event("visibilitychange"));
}

test("time goes by on the screens while they are seen, and not while they are hidden", () => {
  vi.advanceTimersByTime(31_000);
  expect(told).toEqual(["tick", "tick"]);
  becomes("hidden");
  vi.advanceTimersByTime(3_600_000);
  expect(told).toEqual(["tick", "tick", "hidden"]);
  becomes("visible");
  expect(told.at(-1)).toBe("chance");
  vi.advanceTimersByTime(15_000);
  expect(told.at(-1)).toBe("tick");
});
