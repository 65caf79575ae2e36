/** What a crew on the road may see where the event forbids advice. */

import { expect, test } from "vitest";
import type { Entry, Role } from "../src/kit/api";
import { entriesShown, mayShowAdvice, type RoadInput } from "../src/report/road";
import { currentService } from "../src/report/service";
import { AT_MS, CAR, entry, heldAll, ids, setup } from "./making";

const MINUTE = 60_000;
const entered = (service: string, official_time = "13:02", extra = {}) =>
  entry("service.entered", { service, official_time }, extra);
const left = (service: string, official_time = "13:30", extra = {}) =>
  entry("service.left", { service, official_time }, { at: "2026-05-16T13:30:00+02:00", ...extra });

function may(entries: Entry[], roles: Role[] = ["co-driver"], change: Partial<RoadInput> = {}) {
  const now_ms = AT_MS + 10 * MINUTE;
  const usual = { roles, person: "p-maru", car: CAR, setup: setup(), entries: heldAll(...entries), now_ms };
  return mayShowAdvice({ ...usual, ...change });
}

test("on the road: nothing for driver and co-driver, everything for those with another role", () => {
  expect(may([])).toBe(false);
  expect(may([], ["driver", "co-driver"])).toBe(false);
  expect(may([], ["co-driver", "mechanic"])).toBe(true);
  expect(may([], ["manager"])).toBe(true);
});

test("where the event allows advice, everything", () => {
  expect(may([], ["co-driver"], { setup: setup({}, true) })).toBe(true);
});

test("without a set-up the stricter rule holds", () => {
  expect(may([entered("B")], ["co-driver"], { setup: null })).toBe(false);
});

test("in service: everything, from in to out", () => {
  expect(may([entered("B")])).toBe(true);
  expect(may([entered("B"), left("B")], ["co-driver"], { now_ms: AT_MS + 31 * MINUTE })).toBe(false);
  expect(may([entered("B", "13:02", { car: "42" })])).toBe(false);
});

test("a later service of the itinerary counts, whatever the order of tapping", () => {
  expect(may([entered("A", "09:30"), left("A", "10:00"), entered("B")])).toBe(true);
  expect(may([entered("B"), entered("A", "13:05")])).toBe(true);
  expect(may([entered("A"), left("B")])).toBe(false);
});

test("out was not tapped, but a stage after the service was run: on the road", () => {
  const stage5 = entry("report.filed", { where: "stage", stage: "SS5" });
  const stage4 = entry("report.filed", { where: "stage", stage: "SS4" });
  expect(may([entered("B"), stage5])).toBe(false);
  expect(may([entered("B"), stage4])).toBe(true);
  expect(may([entered("B"), entry("stage.nothing_seen", { stage: "SS5", how: "from-seat" })])).toBe(false);
});

test("a stage that was mistaken and put right does not send the car on the road", () => {
  const wrong = entry("report.filed", { where: "stage", stage: "SS5" }, { id: "w" });
  const right = entry("report.amended", { replaces: ["w"], where: "stage", stage: "SS4" }, { subject: "w" });
  expect(may([entered("B"), wrong, right])).toBe(true);
});

test("out was not tapped, and minutes and late limit are over: on the road", () => {
  const due_out = Date.parse("2026-05-16T13:32:00+02:00");
  expect(may([entered("B")], ["co-driver"], { now_ms: due_out + 15 * MINUTE })).toBe(true);
  expect(may([entered("B")], ["co-driver"], { now_ms: due_out + 16 * MINUTE })).toBe(false);
});

test("a mis-tap that was undone does not count; others than author and manager can't undo it", () => {
  const mistap = entered("B", "13:02", { id: "m" });
  const undone = (person: string) => entry("entry.voided", { voids: ["m"] }, { person });
  expect(may([mistap, undone("p-maru")])).toBe(false);
  expect(may([mistap, undone("p-boss")])).toBe(false);
  expect(may([mistap, undone("p-jo")])).toBe(true);
});

test("due out is the officials' time in, and the service's minutes", () => {
  const current = currentService([entered("B", "13:05")], CAR, setup());
  expect(current).toMatchObject({ service: "B", due_out_ms: Date.parse("2026-05-16T13:35:00+02:00") });
  const full = currentService([entered("B", "2026-05-16T13:04:00+02:00")], CAR, setup());
  expect(full?.due_out_ms).toBe(Date.parse("2026-05-16T13:34:00+02:00"));
});

test("on the road others' work and decisions are not among the entries shown; reports and one's own are", () => {
  const report = entry("report.filed", { zone: "under" }, { id: "r", person: "p-jo" });
  const advice = entry("job.deferred", { to: "road", reason: "look at it" }, { id: "d", person: "p-jo" });
  const own = entry("job.started", {}, { id: "s", subject: "under/sump" });
  const look = entry("inspection.passed", { covers: [] }, { id: "i", person: "p-jo" });
  const input = { roles: ["co-driver" as const], person: "p-maru", car: CAR, setup: setup(), now_ms: AT_MS };
  const task = entry("task.finished", { service: "B" }, { id: "t", subject: "open car-on-stands", person: "p-jo" });
  const entries = heldAll(report, advice, own, look, task);
  expect(ids(entriesShown({ ...input, entries }).map((one) => one.entry))).toEqual(["r", "s"]);
  expect(entriesShown({ ...input, roles: ["mechanic"], entries })).toHaveLength(5);
});
