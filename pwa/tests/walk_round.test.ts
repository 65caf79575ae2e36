/** A walk round the car: what it makes of its ticks. */

import { expect, test } from "vitest";
import type { CarMap } from "../src/kit/api";
import { EMPTY_BODY } from "../src/report/body";
import { countOf, happeningsOf, nextZone, roundOf, type Round, reportsOfRound } from "../src/report/round";

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

test("the way round never turns back: round the car, then inside, then under it, then what only a team's map has", () => {
  const names = [
    ...["under-front", "tow-bar", "cabin", "rear-left", "left-side", "front-end", "rear-right", "front-right"],
    ...["rear-end", "right-side", "front-left", "snorkel"],
  ];
  const map = { zones: Object.fromEntries(names.map((name) => [name, {}])) } as unknown as CarMap;
  expect(roundOf(map)).toEqual([
    ...["front-left", "front-end", "front-right", "right-side", "rear-right", "rear-end", "rear-left", "left-side"],
    ...["cabin", "under-front", "tow-bar", "snorkel"],
  ]);
  expect(nextZone(map, "front-left")).toBe("front-end");
  expect(nextZone(map, "snorkel")).toBeNull();
});

test("only happenings that the team's map knows are offered", () => {
  expect(happeningsOf(MAP)).toEqual(["rolled"]);
});
