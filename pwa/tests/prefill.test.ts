/** The stage that stands in a new report; common practice, no source. */

import { describe, expect, test } from "vitest";
import type { Entry, EventSetup } from "../src/kit/api";
import { conditionsOf } from "../src/report/conditions";
import { freshJobs, lookOf } from "../src/report/fresh";
import { prefill, SAME_STOP_MS, stageNow } from "../src/report/prefill";
import { AT_MS, CAR, entry, job, queue, setup } from "./making";

const LATER = AT_MS + SAME_STOP_MS + 1;
const report = (stage: string | null, extra = {}) => entry("report.filed", { stage, where: "stage" }, extra);
const nothing = (stage: string, extra = {}) => entry("stage.nothing_seen", { stage, how: "from-seat" }, extra);
const stageOf = (entries: ReturnType<typeof entry>[], now_ms = LATER) => prefill(entries, CAR, setup(), now_ms).stage;

test("the first stage at first, then the one after the last reported or seen", () => {
  expect(stageOf([])).toBe("SS1");
  expect(stageOf([report("SS1")])).toBe("SS2");
  expect(stageOf([report("SS1"), nothing("SS2")])).toBe("SS3");
  expect(stageOf([report("SS3"), report("SS1")])).toBe("SS4");
  expect(stageOf([report("SS6")])).toBe("SS6");
});

test("a second hit at the same stop is of the same stage", () => {
  expect(stageOf([report("SS2")], AT_MS + 60_000)).toBe("SS2");
  expect(stageOf([nothing("SS2")], AT_MS + 60_000)).toBe("SS3");
});

test("undone, withdrawn, unknown stages and other cars count for nothing", () => {
  expect(stageOf([nothing("SS2", { id: "n" }), entry("entry.voided", { voids: ["n"] })])).toBe("SS1");
  const gone = entry("report.withdrawn", { replaces: ["r"] }, { subject: "r" });
  expect(stageOf([report("SS2", { id: "r" }), gone])).toBe("SS1");
  expect(stageOf([report("SS99"), report(null), report("SS4", { car: "42" })])).toBe("SS1");
});

test("in service: where says so, with the stage before it; after it the next stage", () => {
  const entered = entry("service.entered", { service: "B", official_time: "13:00" });
  expect(prefill([entered], CAR, setup(), AT_MS)).toMatchObject({ where: "service", stage: "SS4" });
  const left = entry("service.left", { service: "B", official_time: "13:30" });
  expect(prefill([entered, left], CAR, setup(), LATER)).toMatchObject({ where: "stage", stage: "SS5" });
});

describe("where the itinerary says when stages start", () => {
  const HOUR = 3_600_000;
  const at = (hours: number) => new Date(AT_MS + hours * HOUR).toISOString();
  const timed = {
    ...setup(),
    stages: ["SS1", "SS2", "SS3", "SS4", "SS5", "SS6"].map((stage, place) => ({ stage, km: 10, start: at(place) })),
    services: [{ ...setup().services[0], service: "A", after: "SS3", arrive: at(3), minutes: 30 }],
  } as EventSetup;
  const guess = (entries: Entry[], hours: number) => stageNow(entries, CAR, timed, AT_MS + hours * HOUR);

  test("a clean stage that nobody reported does not take the next one's hit", () => {
    expect(guess([], 1.2)).toBe("SS2");
    expect(guess([report("SS1")], 2.2)).toBe("SS3");
  });

  test("what is found before the next stage starts is of the last one", () => {
    expect(guess([report("SS2")], 1.9)).toBe("SS2");
    expect(guess([], -1)).toBe("SS1");
  });

  test("the day is late as a whole: what was seen at the service puts the starts off", () => {
    const entered = entry("service.entered", { service: "A", official_time: null }, { at: at(4) });
    const left = entry("service.left", { service: "A", official_time: null }, { at: at(4.5) });
    expect(guess([entered, left], 4.9)).toBe("SS4");
    expect(guess([entered, left], 5.2)).toBe("SS5");
  });

  test("long after the event its clock says nothing", () => {
    expect(guess([], 24)).toBe("SS1");
  });

  test("never one before what was reported", () => {
    expect(guess([report("SS4")], 1.5)).toBe("SS4");
  });
});

test("no itinerary, no stage", () => {
  expect(prefill([], CAR, null, AT_MS)).toMatchObject({ where: "unknown", stage: null });
});

test("a component's own order of conditions: unknown below it, what it leaves out above it", () => {
  const components = {
    hose: { label: "", group: null, sealed: false, conditions: ["leaking" as const, "marked" as const] },
  };
  const map = { ...setup().car_map, components };
  expect(conditionsOf("hose", map)).toEqual([
    "unknown",
    "leaking",
    "marked",
    ...["worn", "loose", "bent", "cracked", "flat", "seized", "broken", "missing"],
  ]);
  expect(conditionsOf("wheel", map)[1]).toBe("marked");
});

test("new since the last look: jobs with an entry that was not there", () => {
  const before = queue({ jobs: [job("a/b", { findings: ["1"] }), job("c/d", { findings: ["2"] })] }).answer;
  const now = queue({
    jobs: [job("a/b", { findings: ["1"] }), job("c/d", { findings: ["2"], uncovered: ["3"] })],
  }).answer;
  expect(freshJobs(now, null)).toEqual(["a/b", "c/d"]);
  expect(freshJobs(now, lookOf(before))).toEqual(["c/d"]);
  expect(freshJobs(now, lookOf(now))).toEqual([]);
});
