/** Where nobody may work on the car, and when that ends. */

import { expect, test } from "vitest";
import type { Entry } from "../src/kit/api";
import { type Control, noWork } from "../src/report/controls";
import { CAR, entry, setup } from "./making";

const AT = (clock: string) => ({ at: `2026-05-16T${clock}:00+02:00` });
const into = (control: Control, clock: string, more = {}) =>
  entry("control.entered", { control, official_time: clock }, { ...AT(clock), ...more });
const where = (...entries: Entry[]) => noWork(entries, CAR, setup())?.control ?? null;

test("a car that came into a control is there until somebody ends that very entry", () => {
  const control = into("parc-ferme", "19:30", { id: "in" });
  expect(where(control)).toBe("parc-ferme");
  expect(noWork([control], CAR, setup())?.since_ms).toBe(Date.parse("2026-05-16T19:30:00+02:00"));
  expect(where(control, entry("control.left", { ends: ["another"] }, AT("20:00")))).toBe("parc-ferme");
  expect(where(control, entry("control.left", { ends: ["in"] }, AT("20:00")))).toBeNull();
});

test("the last one that is open says where; another car's says nothing", () => {
  const zone = into("control-zone", "09:05", { id: "zone" });
  expect(where(zone, into("regroup", "09:10", { id: "regroup" }))).toBe("regroup");
  expect(where(into("regroup", "09:10", { car: "99" }))).toBeNull();
});

test("a tap out that was forgotten shuts nobody out of the next service or stage", () => {
  const control = into("regroup", "09:10", { id: "in" });
  expect(where(control, entry("service.entered", { service: "A" }, AT("09:30")))).toBeNull();
  expect(where(control, entry("stage.nothing_seen", { stage: "SS4" }, AT("11:00")))).toBeNull();
  expect(where(control, entry("report.filed", { stage: "SS4", where: "stage" }, AT("11:00")))).toBeNull();
  expect(where(control, entry("report.filed", { stage: "SS3", where: "regroup" }, AT("09:15")))).toBe("regroup");
  expect(where(control, entry("service.entered", { service: "A" }, AT("08:30")))).toBe("regroup");
});

test("the itinerary sends the car to parc fermé after a service, without a tap", () => {
  const services = setup().services.map((one) => ({ ...one, parc_ferme_after: one.service === "A" }));
  const here = (...entries: Entry[]) => noWork(entries, CAR, { ...setup(), services });
  const left = entry("service.left", { service: "A", official_time: "19:15" }, { ...AT("19:16"), id: "left" });
  expect(here(left)?.control).toBe("parc-ferme");
  expect(here(left)?.since_ms).toBe(Date.parse("2026-05-16T19:15:00+02:00"));
  expect(here(left, entry("control.left", { ends: ["left"] }, AT("19:20")))).toBeNull();
  expect(here(left, entry("entry.voided", { voids: ["left"] }, AT("19:17")))).toBeNull();
  expect(here(left, entry("service.entered", { service: "B" }, AT("22:00")))).toBeNull();
  expect(where(left)).toBeNull();
});

test("a mis-tap is taken back", () => {
  const control = into("regroup", "09:10", { id: "in" });
  expect(where(control, entry("entry.voided", { voids: ["in"] }, AT("09:11")))).toBeNull();
});
