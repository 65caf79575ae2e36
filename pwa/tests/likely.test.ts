/** What stands first in the form, what a hit there usually damages (common practice, no source), and what is marked in it. */

import { expect, test } from "vitest";
import type { CarMap } from "../src/kit/api";
import { reportsOf } from "../src/report/effective";
import { componentsOf, lastFound, symptomsOf } from "../src/view/log/likely";
import { CAR, entry, heldAll } from "./making";

const MAP = {
  zones: { "front-left": { components: ["wishbone", "brake-hose", "tyre", "wheel"] }, boot: { components: ["jack"] } },
  symptoms: {
    "temp-high": { checks: ["engine-bay/radiator"] },
    "pulls-left": { checks: ["front-left/tyre", "front-right/tyre"] },
    smoke: { checks: [] },
  },
} as unknown as CarMap;
const found = (component: string, extra = {}, where = "stage") =>
  entry("report.filed", { where: where as "stage", zone: "x", findings: [{ component, condition: "bent" }] }, extra);
const last = (...entries: ReturnType<typeof entry>[]) => lastFound(reportsOf(heldAll(...entries), CAR));

test("the commonest part first, what nobody listed in the map's own order after it", () => {
  expect(componentsOf(MAP, "front-left")).toEqual(["wheel", "tyre", "brake-hose", "wishbone"]);
});

test("last is the newest report that found something, of this car, not withdrawn, no mark of a hand-over", () => {
  const at = (minute: number) => ({ at: `2026-05-16T13:0${minute}:00+02:00` });
  const entries = [
    found("strut", at(1)),
    found("wheel", { ...at(2), id: "w" }),
    found("tyre", { ...at(3), car: "42" }),
    found("door", at(4), "hand-over"),
    entry("report.filed", { where: "stage", symptoms: ["smoke"] }, at(5)),
  ];
  expect(last(...entries)).toEqual(["wheel"]);
  expect(last(...entries, entry("report.withdrawn", { replaces: ["w"] }, { subject: "w", ...at(6) }))).toEqual([
    "strut",
  ]);
  expect(last()).toEqual([]);
});

test("symptoms that make somebody look at the place come first; without a place none does", () => {
  expect(symptomsOf(MAP, "front-left")).toEqual(["pulls-left", "temp-high", "smoke"]);
  expect(symptomsOf(MAP, null)).toEqual(["temp-high", "pulls-left", "smoke"]);
});
