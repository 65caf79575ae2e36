/** What the crew is told at service out, from the queue and the entries of a service. */

import { expect, test } from "vitest";
import type { Entry, Job } from "../src/kit/api";
import { acknowledgedBy, briefingOf } from "../src/report/briefing";
import { entry, held, heldAll, job, queue, setup } from "./making";
import { made_plan } from "./plan_made";

const estimate = (parts: { part: string; qty: number; short: number }[]) => ({ parts }) as unknown as Job["estimate"];
const done = { state: "finished" as const, inspection: "passed" as const };

function told(jobs: Job[], entries: Entry[], plan: typeof made_plan | null = null) {
  const { answer } = queue({ jobs, hash: "q9" });
  const made_at = "2026-05-16T11:25:00.000Z";
  return briefingOf({ setup: setup(), service: "B", queue: answer, entries, plan, release: "hold", made_at });
}

const finish = (subject: string, service = "B", temporary = false, id = `f-${subject}`) =>
  entry("job.finished", { covers: [], action: "replace", temporary, service }, { subject, id });

test("done: what was finished for good in this service, and stands", () => {
  const jobs = [job("a/hose", done), job("a/wheel", done), job("a/arm", { state: "open" }), job("a/tape", { ...done })];
  const entries = [
    finish("a/hose"),
    finish("a/wheel", "A"),
    finish("a/arm"),
    finish("a/tape", "B", true),
    finish("a/undone", "B", false, "u"),
    entry("entry.voided", { voids: ["u"], reason: "" }, { subject: "a/undone" }),
  ];
  expect(told(jobs, entries).done).toEqual([{ job: "a/hose", action: "replace" }]);
});

test("a job that was finished and nobody has looked at is not done with", () => {
  const { not_done } = told([job("a/hose", { state: "finished", inspection: "needed" })], [finish("a/hose")]);
  expect(not_done).toEqual([{ job: "a/hose", action: "replace", left_to: null, look: "needed" }]);
});

test("watch: patched for now, passed until a service, left to the crew", () => {
  const jobs = [
    job("a/bumper", { state: "patched", safety_critical: false }),
    job("a/arm", done),
    job("a/lamp", { state: "deferred", safety_critical: false, estimate: estimate([]) }),
    job("a/trim", { state: "deferred", safety_critical: false }),
  ];
  const entries = [
    entry("inspection.passed", { covers: [], until: "C" }, { subject: "a/arm" }),
    entry("job.deferred", { covers: [], to: "road", reason: "" }, { subject: "a/lamp" }),
    entry("job.deferred", { covers: [], to: "next-service", reason: "" }, { subject: "a/trim" }),
  ];
  const card = told(jobs, entries);
  expect(card.watch).toEqual([
    { job: "a/bumper", why: "temporary", until: null, look: null },
    { job: "a/arm", why: "until", until: "C", look: null },
    { job: "a/lamp", why: "road", until: null, look: null },
  ]);
  expect(card.not_done.map((one) => [one.job, one.left_to])).toEqual([["a/trim", "next-service"]]);
});

test("what is patched or failed and still holds the car says so", () => {
  const jobs = [job("a/arm", { state: "patched" }), job("a/hose", { inspection: "failed" })];
  const { watch, not_done } = told(jobs, []);
  expect(watch).toEqual([{ job: "a/arm", why: "temporary", until: null, look: "needed" }]);
  expect(not_done.map((one) => [one.job, one.look])).toEqual([["a/hose", "failed"]]);
});

test("a later look, or a job left to the next service after all, takes it off the crew's list", () => {
  const jobs = [job("a/arm", done), job("a/lamp", { state: "deferred", safety_critical: false })];
  const at = "2026-05-16T13:20:00+02:00";
  const entries = [
    entry("inspection.passed", { covers: [], until: "C" }, { subject: "a/arm" }),
    entry("inspection.passed", { covers: [] }, { subject: "a/arm", at }),
    entry("job.deferred", { covers: [], to: "road", reason: "" }, { subject: "a/lamp" }),
    entry("job.deferred", { covers: [], to: "next-service", reason: "" }, { subject: "a/lamp", at }),
  ];
  expect(told(jobs, entries).watch).toEqual([]);
});

test("aboard: the plan's parts and tools of what was left to the crew; without a plan, what the van has", () => {
  const parts = estimate([
    { part: "wheel-15", qty: 1, short: 0 },
    { part: "tyre-15", qty: 1, short: 1 },
  ]);
  const jobs = [job("front-left/wheel", { state: "deferred", estimate: parts })];
  const left = entry("job.deferred", { covers: [], to: "road", reason: "" }, { subject: "front-left/wheel" });
  expect(told(jobs, [left]).aboard).toEqual([{ part: "wheel-15", qty: 1 }]);
  const planned = told(jobs, [left], made_plan);
  expect(planned.aboard).toEqual([{ part: "wheel-15", qty: 1 }]);
  expect(planned.tools).toEqual(["jack", "wheel-brace"]);
  expect(told(jobs, [], made_plan).tools).toEqual([]);
});

test("who was told: the last word of each person in that service, with what he was shown", () => {
  const ack = (person: string, service: string, hash: string, extra = {}) =>
    entry("briefing.acknowledged", { service, queue: hash }, { subject: service, person, ...extra });
  const entries = [
    ack("p-maru", "B", "q8"),
    ack("p-maru", "B", "q9", { at: "2026-05-16T13:28:00+02:00" }),
    ack("p-jo", "A", "q1"),
    ack("p-boss", "B", "q9", { car: "42" }),
    ack("p-jo", "B", "q9", { id: "mistap" }),
    entry("entry.voided", { voids: ["mistap"], reason: "" }, { person: "p-jo" }),
  ];
  expect(acknowledgedBy(heldAll(...entries), { car: "41", service: "B", queue: "q9" }, setup())).toEqual([
    { person: "p-maru", at: "2026-05-16T13:28:00+02:00", changed: false },
  ]);
});

test("reports and work that come in later are to be told again; an acknowledgement is not", () => {
  const ack = entry("briefing.acknowledged", { service: "B", queue: "q8" }, { subject: "B" });
  const changed = (later: Entry, queue_now = "q9") =>
    acknowledgedBy(
      [held(ack, { arrival: 5 }), held(later, { arrival: 6 })],
      { car: "41", service: "B", queue: queue_now },
      setup(),
    )[0]?.changed;
  expect(changed(finish("a/hose"))).toBe(true);
  expect(changed(entry("report.filed", { zone: "rear" }))).toBe(true);
  expect(changed(entry("briefing.acknowledged", { service: "B" }, { person: "p-jo", subject: "B" }))).toBe(false);
  expect(changed(finish("a/hose"), "q8")).toBe(false);
});
