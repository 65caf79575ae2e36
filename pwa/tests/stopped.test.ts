/** When a phone spares its battery. */

import { expect, test } from "vitest";
import type { Entry } from "../src/kit/api";
import { isStopped, STANDS_MS } from "../src/report/stopped";
import { CAR, entry, setup } from "./making";

const AT = (clock: string) => ({ at: `2026-05-16T${clock}:00+02:00` });
const ms = (clock: string) => Date.parse(AT(clock).at);
const said = (drives: "no" | "poorly", clock: string, more = {}) =>
  entry("report.filed", { zone: "front-left", drives }, { ...AT(clock), person: "p-maru", ...more });
const stopped = (entries: Entry[], now_ms = ms("18:00")) => isStopped(entries, "p-maru", CAR, setup(), now_ms);

test("the last word of the phone's own person counts, for some hours", () => {
  expect(stopped([said("no", "17:50")])).toBe(true);
  expect(stopped([said("no", "17:50")], ms("17:50") + STANDS_MS)).toBe(false);
  expect(stopped([said("no", "17:50"), said("poorly", "17:58", { id: "later" })])).toBe(false);
  expect(stopped([said("no", "17:50", { person: "p-jo" })])).toBe(false);
  expect(stopped([])).toBe(false);
});

test("a car that came into service stands no longer by the road", () => {
  expect(stopped([said("no", "17:50"), entry("service.entered", { service: "B" }, AT("17:55"))])).toBe(false);
});
