/** A walk round the car: what it makes of its ticks. */

import { expect, test } from "vitest";
import type { CarMap } from "../src/kit/api";
import { EMPTY_BODY } from "../src/report/body";
import { countOf, happeningsOf, nextZone, type Round, reportsOfRound } from "../src/report/round";

const MAP = {
  zones: { "front-left": {}, "front-right": {}, boot: {} },
  symptoms: { rolled: {}, "long-pedal": {} },
} as unknown as CarMap;
const BASE = { ...EMPTY_BODY, stage: "SS3", where: "stage" as const };
const BENT = { component: "wheel", condition: "bent" as const };
const FLAT = { component: "tyre", condition: "flat" as const };

test("one report for what happened, and one for each zone with findings, all of one place", () => {
  const round: Round = { base: BASE, zones: { "front-left": [BENT, FLAT], boot: [] }, happened: ["rolled"] };
  expect(reportsOfRound(round)).toEqual([
    { ...BASE, zone: null, findings: [], symptoms: ["rolled"] },
    { ...BASE, zone: "front-left", findings: [BENT, FLAT], symptoms: [] },
  ]);
  expect(countOf(round)).toBe(3);
});

test("nothing ticked makes no report", () => {
  const round: Round = { base: BASE, zones: { "front-left": [], boot: [] }, happened: [] };
  expect(reportsOfRound(round)).toEqual([]);
  expect(countOf(round)).toBe(0);
});

test("the way round goes in the map's order and ends", () => {
  expect(nextZone(MAP, "front-left")).toBe("front-right");
  expect(nextZone(MAP, "boot")).toBeNull();
});

test("only happenings that the team's map knows are offered", () => {
  expect(happeningsOf(MAP)).toEqual(["rolled"]);
});
