/** A service plan with every field filled, as the server answers; for tests and for looking at the screens. */

import type { Plan, PlanTask } from "../src/kit/api";
import { PLAIN_WISH, type HeldPlan, type ShownPlan } from "../src/report/plan";

type Made = Partial<PlanTask> & Pick<PlanTask, "task" | "kind" | "start_s" | "end_s" | "people">;

export const task = (made: Made): PlanTask => ({
  job: null,
  jobs: [],
  step: null,
  zone: "",
  critical: 0,
  state: "planned",
  ...made,
});

const HOSE = "front-left/brake-hose";
const WHEEL = "front-left/wheel";

/** The car came in at 13:02; four minutes are over. Bodo and Kasp are on the stands. */
export const made_plan: Plan = {
  event: "invented-2026",
  car: "41",
  service: "B",
  minutes: 30,
  rates: "r",
  queue: "q1",
  stale: false,
  proven: true,
  by: "solver",
  finish_s: 1320,
  spare_s: 60,
  on_time: 0.87,
  settled: true,
  work_s: 1380,
  entered_at: "2026-05-16T13:02:00+02:00",
  starts_at: "2026-05-16T13:02:00+02:00",
  late_min: 0,
  penalty_s: 0,
  buffer_s: 0,
  choice: "on-time",
  others: [],
  goals: [],
  due_out: "2026-05-16T13:32:00+02:00",
  now_s: 240,
  people: [
    { person: "p-bodo", mechanic: true, inspector: false, from_s: 0 },
    { person: "p-kasp", mechanic: true, inspector: false, from_s: 0 },
    { person: "p-odil", mechanic: false, inspector: true, from_s: 600 },
  ],
  tasks: [
    task({
      task: "open car-on-stands",
      kind: "open",
      step: "car-on-stands",
      start_s: 240,
      end_s: 420,
      people: ["p-bodo", "p-kasp"],
      state: "under-way",
    }),
    task({
      task: "open wheel-off front-left",
      kind: "open",
      step: "wheel-off",
      zone: "front-left",
      start_s: 420,
      end_s: 480,
      people: ["p-bodo"],
    }),
    task({
      task: `replace ${HOSE}`,
      kind: "work",
      job: HOSE,
      zone: "front-left",
      start_s: 480,
      end_s: 960,
      people: ["p-bodo", "p-kasp"],
      critical: 0.9,
    }),
    task({
      task: `inspect ${HOSE}`,
      kind: "inspect",
      job: HOSE,
      zone: "front-left",
      start_s: 960,
      end_s: 1080,
      people: ["p-odil"],
    }),
    task({
      task: "close wheel-off front-left",
      kind: "close",
      step: "wheel-off",
      zone: "front-left",
      start_s: 1080,
      end_s: 1170,
      people: ["p-kasp"],
    }),
    task({ task: "routine tools-counted", kind: "routine", start_s: 1080, end_s: 1155, people: ["p-bodo"] }),
    task({
      task: "close car-on-stands",
      kind: "close",
      step: "car-on-stands",
      start_s: 1170,
      end_s: 1290,
      people: ["p-bodo", "p-kasp"],
    }),
    task({
      task: "wheel-nut-torque front-left",
      kind: "check",
      zone: "front-left",
      start_s: 1290,
      end_s: 1320,
      people: ["p-odil"],
    }),
  ],
  done: [{ task: "routine rinse", job: null, at: "2026-05-16T13:05:30+02:00", person: "p-bodo" }],
  left_out: [
    {
      job: WHEEL,
      reason: "not in the van: wheel-15",
      why: "part",
      to: "road",
      put_in_car: [{ part: "wheel-15", qty: 1 }],
      tools: ["jack", "wheel-brace"],
    },
    {
      job: "cabin/door-bars",
      reason: "waits for the official",
      why: "official",
      to: "after",
      put_in_car: [],
      tools: [],
    },
    { job: "routine wash", reason: "no time for it", why: "time", to: "next-service", put_in_car: [], tools: [] },
  ],
  needs: { minutes: 34, leave_late_min: 4, penalty_s: 40 },
  later: [{ leave_late_min: 2, to_late_min: 2, penalty_s: 20, adds: ["routine wash"], drops: [], proven: true }],
  hands: [
    { mechanics: 3, adds: ["routine wash"], drops: [], finish_s: 1200, proven: true },
    { mechanics: 1, adds: [], drops: [HOSE], finish_s: 1380, proven: false },
  ],
  lateness: { used_min: 3, left_min: 12, late_penalty_s_per_minute: 10, early_penalty_s_per_minute: 60 },
};

export function heldPlan(change: Partial<ShownPlan> = {}, held: Partial<HeldPlan> = {}): HeldPlan {
  const heard_at = "2026-05-16T13:06:00+02:00";
  return { plan: { ...made_plan, ...change }, wish: PLAIN_WISH, heard_at, arrivals: 10, ...held };
}
