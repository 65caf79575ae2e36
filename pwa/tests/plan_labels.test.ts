/** Tasks and times of a plan in words. */

import { expect, test } from "vitest";
import type { EventSetup, PlanTask } from "../src/kit/api";
import {
  clockAt,
  doneLabel,
  groupLabel,
  lasts,
  shortLabel,
  spanOf,
  taskLabel,
  thingLabel,
} from "../src/view/plan/labels";
import { stepWords } from "../src/view/words/plan";
import { setup } from "./making";
import { heldPlan, made_plan, task } from "./plan_made";

const zone = (label: string) => ({ label, kind: "corner", people: 2, components: [] });
const map = {
  ...setup().car_map,
  zones: { "front-left": zone("Front left corner"), "engine-bay": zone("Engine bay") },
  components: { "brake-hose": { label: "Brake hose" }, ecu: { label: "ECU" } },
};
const event = setup({ car_map: map as unknown as EventSetup["car_map"] });
const label = (made: Partial<PlanTask> & Pick<PlanTask, "task" | "kind">) =>
  taskLabel(event, task({ start_s: 0, end_s: 15, people: [], ...made }));

test.each([
  ["swap front-left/brake-hose", "work", "front-left/brake-hose", "Swap brake hose, front left corner"],
  ["swap engine-bay/ecu", "work", "engine-bay/ecu", "Swap ECU, engine bay"],
  ["inspect front-left/brake-hose", "inspect", "front-left/brake-hose", "Inspect brake hose, front left corner"],
  ["assess front-left/unknown", "work", "front-left/unknown", "Assess front left corner"],
  [
    "hub-nut-torque front-left/brake-hose",
    "check",
    "front-left/brake-hose",
    "Torque the hub nut: brake hose, front left corner",
  ],
  ["routine spanner-check", "routine", null, "Spanner check"],
  ["routine renew front-left/brake-hose", "routine", null, "Renew brake hose, front left corner"],
] as const)("%s", (name, kind, job, said) => {
  expect(label({ task: name, kind, job })).toBe(said);
  expect(doneLabel(event, { task: name, job })).toBe(said);
});

test("a step, a check or an inspection of a place names the place", () => {
  const at = { zone: "front-left" };
  expect(label({ task: "open wheel-off front-left", kind: "open", step: "wheel-off", ...at })).toBe(
    "Wheel off, front left corner",
  );
  expect(label({ task: "wheel-nut-torque front-left", kind: "check", ...at })).toBe(
    "Torque the wheel nuts, front left corner",
  );
  expect(label({ task: "inspect front-left", kind: "inspect", ...at })).toBe("Inspect front left corner");
  expect(doneLabel(event, { task: "close wheel-off front-left", job: null })).toBe("Wheel on, front left corner");
});

test("steps open and close in words, whatever the team calls its own; none says what a screen may not", () => {
  expect([stepWords("car-on-stands", "open"), stepWords("car-on-stands", "close")]).toEqual([
    "Lift the car",
    "Lower the car",
  ]);
  expect([stepWords("winch-rigged", "open"), stepWords("winch-rigged", "close")]).toEqual([
    "Open up: winch rigged",
    "Put back: winch rigged",
  ]);
  const table = ["fuel-made-safe", "welding-place-made-safe", "official-called", "coolant-drained-and-filled"];
  for (const step of table) {
    for (const kind of ["open", "close"] as const) expect(stepWords(step, kind)).not.toMatch(/safe|clear/i);
  }
});

test("what is left out is a job or routine work", () => {
  expect(groupLabel(event, "front-left/brake-hose")).toBe("Front left corner: Brake hose");
  expect(groupLabel(event, "routine tyres-and-pressures")).toBe("Tyres and pressures");
});

test("what is said of a job, or stands beside others, names the thing first", () => {
  expect(thingLabel(event, "front-left/brake-hose")).toBe("Brake hose, front left corner");
  expect(thingLabel(event, "engine-bay/ecu")).toBe("ECU, engine bay");
  expect(thingLabel(event, "front-left/unknown")).toBe("Front left corner");
  expect(thingLabel(event, "routine tyres-and-pressures")).toBe("Tyres and pressures");
});

test("times are on the event's clock from when the car came in, else by the itinerary, else counted", () => {
  const { plan } = heldPlan();
  const one = task({ task: "t", kind: "check", start_s: 60, end_s: 75, people: [] });
  expect(clockAt(plan, event, 240)).toBe("13:06");
  expect(spanOf(plan, event, one)).toBe("13:03");
  expect(spanOf(plan, event, { ...one, end_s: 150 })).toBe("13:03–13:04");
  const late = { ...made_plan, starts_at: null, entered_at: null };
  expect(clockAt(late, event, 240)).toBe("13:06");
  expect(clockAt({ ...late, service: "none" }, event, 240)).toBe("4′");
});

test("the time of a plan counts from when work can start, where the server says when that is", () => {
  const started = { ...made_plan, starts_at: "2026-05-16T13:04:00+02:00" };
  expect(clockAt(started, event, 240)).toBe("13:08");
});

test("an inspection of several things names them, and its lane the corner", () => {
  const made = {
    task: "inspect front-left",
    kind: "inspect",
    zone: "front-left",
    job: "front-left/brake-hose",
  } as const;
  const several = { ...made, jobs: ["front-left/brake-hose", "front-left/ecu"] };
  expect(label(several)).toBe("Inspect front left corner: brake hose, ECU");
  expect(shortLabel(event, task({ start_s: 0, end_s: 15, people: [], ...several }))).toBe("inspect FL");
});

test.each([
  [{ task: "open car-on-stands", kind: "open", step: "car-on-stands" }, "lift"],
  [{ task: "close front-on-stands", kind: "close", step: "front-on-stands" }, "lower"],
  [{ task: "open wheel-off front-left", kind: "open", step: "wheel-off", zone: "front-left" }, "FL off"],
  [{ task: "close wheel-off front-left", kind: "close", step: "wheel-off", zone: "front-left" }, "FL on"],
  [{ task: "open sump-guard-off", kind: "open", step: "sump-guard-off" }, "sump guard off"],
  [{ task: "replace front-left/brake-hose", kind: "work", job: "front-left/brake-hose" }, "brake hose"],
  [{ task: "wheel-nut-torque front-left", kind: "check", zone: "front-left" }, "torque FL"],
  [{ task: "routine tools-counted", kind: "routine" }, "tools counted"],
] as const)("on a lane %j is %s", (made, said) => {
  expect(shortLabel(event, task({ start_s: 0, end_s: 15, people: [], ...made }))).toBe(said);
});

test("how long something takes is told in seconds, minutes or hours, never in tenths of a minute", () => {
  const said = [15, 30, 45, 60, 75, 90, 120, 135, 150, 600, 5400, 5460, 7200].map(lasts);
  expect(said).toEqual([
    "15 s",
    "30 s",
    "45 s",
    "1 min",
    "1 min 15 s",
    "1 min 30 s",
    "2 min",
    "2 min",
    "3 min",
    "10 min",
    "90 min",
    "1 h 31",
    "2 h",
  ]);
});
