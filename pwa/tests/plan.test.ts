/** A plan on the phone: whose turn it is, what has moved since, what an older server leaves unsaid. */

import { expect, test } from "vitest";
import type { Entry } from "../src/kit/api";
import type { LocalEntry } from "../src/report/local_entry";
import { changeSince, nextOf, peopleOf, restFrom, standings, tasksOf } from "../src/report/plan";
import { planOf } from "../src/sync/plan";
import { AT_MS, entry, held, queue, setup } from "./making";
import { heldPlan, made_plan } from "./plan_made";

const HOSE = "front-left/brake-hose";
const plan = heldPlan();
const after = (one: Entry, arrival = 11): LocalEntry => held(one, { arrival });
const said = (kind: "task.started" | "task.finished", task: string, extra = {}) =>
  entry(kind, { service: "B" }, { subject: task, person: "p-bodo", ...extra });
const stateOf = (task: string, entries: LocalEntry[]) => standings(plan, entries, setup()).get(task)?.state;

test("each has the task that is under way, then the earliest one that is not done", () => {
  const none = standings(plan, [], setup());
  const next = (person: string, entries: LocalEntry[] = []) =>
    nextOf(plan.plan, person, entries.length ? standings(plan, entries, setup()) : none)?.task;
  expect(next("p-bodo")).toBe("open car-on-stands");
  expect(next("p-odil")).toBe(`inspect ${HOSE}`);
  const up = after(said("task.finished", "open car-on-stands"));
  expect(next("p-bodo", [up])).toBe("open wheel-off front-left");
  expect(next("p-kasp", [up])).toBe(`replace ${HOSE}`);
  // Somebody went on with a later task first: that is what he is on.
  expect(next("p-bodo", [up, after(entry("job.started", {}, { subject: HOSE }))])).toBe(`replace ${HOSE}`);
  const all = tasksOf(plan.plan, "p-odil").map((one) => after(said("task.finished", one.task)));
  expect(next("p-odil", [...all, after(entry("inspection.passed", {}, { subject: HOSE }))])).toBeUndefined();
});

test("who uses the phone comes first, the others as the plan has them", () => {
  expect(peopleOf(plan.plan, "p-kasp")).toEqual(["p-kasp", "p-bodo", "p-odil"]);
  expect(peopleOf(plan.plan, "p-vera")).toEqual(["p-bodo", "p-kasp", "p-odil"]);
});

test("a task is done by what came after the plan, not by what the plan knew", () => {
  const finished = entry("job.finished", { covers: [] }, { subject: HOSE });
  expect(stateOf(`replace ${HOSE}`, [after(finished)])).toBe("done");
  expect(stateOf(`replace ${HOSE}`, [after(finished, 10)])).toBe("planned");
  expect(stateOf(`inspect ${HOSE}`, [after(finished)])).toBe("planned");
});

test("a finish in another service, of another car or taken back ends nothing", () => {
  const wheel = "open wheel-off front-left";
  expect(stateOf(wheel, [after(said("task.finished", wheel))])).toBe("done");
  const other = entry("task.finished", { service: "A" }, { subject: wheel });
  expect(stateOf(wheel, [after(other)])).toBe("planned");
  expect(stateOf(wheel, [after(said("task.finished", wheel, { car: "42" }))])).toBe("planned");
  const mistap = said("task.finished", wheel, { id: "m" });
  const undo = entry("entry.voided", { voids: ["m"], reason: "" }, { subject: wheel, person: "p-bodo" });
  expect(stateOf(wheel, [after(mistap), after(undo)])).toBe("planned");
});

test("started: by a tap on the task or on the job, until it is stopped", () => {
  const wheel = "open wheel-off front-left";
  expect(stateOf(wheel, [after(said("task.started", wheel))])).toBe("under-way");
  const start = entry("job.started", {}, { subject: HOSE, id: "s" });
  const stop = entry("job.stopped", { ends: ["s"] }, { subject: HOSE });
  expect(stateOf(`replace ${HOSE}`, [after(start)])).toBe("under-way");
  expect(stateOf(`replace ${HOSE}`, [after(start), after(stop)])).toBe("planned");
  expect(stateOf("open car-on-stands", [])).toBe("under-way");
});

test("a new report makes the plan old; starts, finishes and looks only move it on", () => {
  const now = queue({ hash: "q2", rates: "r" });
  const report = entry("report.filed", { zone: "rear" });
  const work = said("task.finished", "routine rinse");
  expect(changeSince(plan, [], now)).toBe("none");
  expect(changeSince(plan, [after(work)], now)).toBe("work");
  expect(changeSince(plan, [after(work), after(report)], now)).toBe("news");
  expect(changeSince(plan, [after(report, 10)], now)).toBe("none");
  expect(changeSince(plan, [after(entry("briefing.acknowledged", { service: "B" }))], now)).toBe("none");
  // What the server has not got yet it could not plan.
  expect(changeSince(plan, [held(work, { arrival: 11, sending: "waiting" })], now)).toBe("none");
});

test("a report that came to this phone after the plan, but was in its queue, makes nothing old", () => {
  const report = after(entry("report.filed", { zone: "rear" }));
  expect(changeSince(plan, [report], queue({ hash: "q1", rates: "r" }))).toBe("none");
});

test("another rate table makes the plan old, if it was heard of after the plan", () => {
  const other = (heard_at: string) => queue({ hash: "q2", rates: "r2" }, { heard_at });
  expect(changeSince(plan, [], other("2026-05-16T13:05:00+02:00"))).toBe("none");
  expect(changeSince(plan, [], other("2026-05-16T13:07:00+02:00"))).toBe("news");
  expect(changeSince(heldPlan({ stale: true }), [], queue({ hash: "q2", rates: "r" }))).toBe("news");
});

test("what an older server does not say reads as not said", () => {
  const { settled: _a, people: _b, done: _c, hands: _d, lateness: _e, work_s: _f, ...rest } = made_plan;
  const { entered_at: _g, due_out: _h, now_s: _i, ...older } = rest;
  const tasks = older.tasks.map(({ state: _, ...one }) => one);
  const left_out = older.left_out.map(({ job, reason, put_in_car }) => ({ job, reason, put_in_car }));
  const read = planOf({ ...older, tasks, left_out });
  expect(read).toMatchObject({ settled: true, work_s: 1380, entered_at: null, now_s: 0, done: [], lateness: null });
  expect(read?.people.map((one) => one.person)).toEqual(["p-bodo", "p-kasp", "p-odil"]);
  expect(read?.tasks.every((one) => one.state === "planned")).toBe(true);
  expect(read?.left_out[0]).toMatchObject({ why: "time", to: "next-service", tools: [] });
  expect(planOf({ ...older, tasks, left_out, by: "greedy" })?.settled).toBe(false);
});

test("what the server says is taken as it is, and what is no plan is none", () => {
  expect(planOf(made_plan)).toEqual(made_plan);
  expect(planOf({ title: "no" })).toBeNull();
  expect(planOf("<html>")).toBeNull();
});

test("phones that hear of the same work within a step of the plan's clock ask from the same moment on", () => {
  const asked = [AT_MS, AT_MS + 1_400, AT_MS + 14_999].map(restFrom);
  expect(new Set(asked.map((at) => Date.parse(at)))).toEqual(new Set([AT_MS]));
  expect(Date.parse(restFrom(AT_MS + 15_000))).toBe(AT_MS + 15_000);
});
