/** What of the queue is in the plan, and who has it. */

import { expect, test } from "vitest";
import type { Job } from "../src/kit/api";
import { plannedJobs } from "../src/report/planned_jobs";
import { sharesOf } from "../src/view/queue/shares";
import { task } from "./plan_made";

const TASKS = [
  task({
    task: "inspect front-left",
    kind: "inspect",
    jobs: ["fl/hub", "fl/hose"],
    start_s: 300,
    end_s: 420,
    people: ["odil"],
  }),
  task({ task: "swap fl/hose", kind: "work", job: "fl/hose", start_s: 600, end_s: 900, people: ["bodo", "kasp"] }),
  task({ task: "bleed fl/hose", kind: "check", job: "fl/hose", start_s: 0, end_s: 60, people: ["anni"] }),
];

const job = (name: string, more: Partial<Job> = {}, minutes = 2, mechanics = 1): Job =>
  ({
    job: name,
    state: "open",
    safety_critical: false,
    inspection: "not-needed",
    must_do: false,
    estimate: { minutes_expected: minutes, mechanics },
    ...more,
  }) as Job;

test("who works on a job has it, also where somebody inspects it before; a check is nobody's job", () => {
  const planned = plannedJobs(TASKS);
  expect([...planned.keys()].sort()).toEqual(["fl/hose", "fl/hub"]);
  expect(planned.get("fl/hose")).toMatchObject({ people: ["bodo", "kasp"], start_s: 600 });
  expect(planned.get("fl/hub")).toMatchObject({ people: ["odil"], start_s: 300 });
});

test("what must be done, what else fits and what is left out add up to the open jobs, with the minutes of all hands", () => {
  const jobs = [
    job("fl/hose", { safety_critical: true, inspection: "needed" }, 5, 2),
    job("fl/hub", {}, 0.25),
    job("rear-end/bumper", { must_do: true }, 4),
    job("roof/vent", {}, 3),
    job("boot/jack", { state: "finished" }, 9),
  ];
  expect(sharesOf(jobs, plannedJobs(TASKS))).toEqual([
    { part: "must", jobs: 1, minutes: 10 },
    { part: "fits", jobs: 1, minutes: 0.25 },
    { part: "not", jobs: 2, minutes: 7 },
  ]);
  expect(sharesOf([jobs[4] as Job], plannedJobs(TASKS))).toEqual([]);
});
