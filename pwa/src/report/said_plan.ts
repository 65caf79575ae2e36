/** What an older server, or an older app that kept a plan here, does not say of it. Pure. */

import type { Plan } from "../kit/api";
import type { ShownPlan } from "./plan";

export type SaidPlan = Partial<Plan> & Pick<Plan, "event" | "car" | "service" | "tasks" | "left_out">;

/** Return a plan with every field there. */
export function completed(said: SaidPlan): ShownPlan {
  const { finish_s = 0, spare_s = 0, by = "greedy" } = said;
  const tasks = said.tasks.map((task) => ({
    ...task,
    jobs: task.jobs ?? [],
    state: task.state ?? "planned",
    critical: task.critical ?? 0,
  }));
  return {
    ...NOTHING_SAID,
    ...said,
    by,
    finish_s,
    spare_s,
    tasks,
    settled: said.settled ?? by === "solver",
    work_s: said.work_s ?? finish_s + spare_s,
    people: said.people ?? [...new Set(tasks.flatMap((task) => task.people))].map(somebody),
    left_out: said.left_out.map((one) => ({ ...LEFT_OUT, ...one })),
    later: (said.later ?? []).map((one) => ({
      ...one,
      to_late_min: one.to_late_min ?? one.leave_late_min,
      drops: one.drops ?? [],
      proven: one.proven ?? false,
    })),
  };
}

const NOTHING_SAID = {
  minutes: 0,
  rates: "",
  queue: "",
  stale: false,
  proven: false,
  on_time: 0,
  late_min: 0,
  penalty_s: 0,
  buffer_s: 0,
  choice: "on-time" as const,
  others: [],
  goals: [],
  needs: null,
  entered_at: null,
  starts_at: null,
  due_out: null,
  now_s: 0,
  done: [],
  hands: [],
  lateness: null,
} satisfies Partial<ShownPlan>;

const LEFT_OUT = { why: "time" as const, to: "next-service" as const, put_in_car: [], tools: [] };

const somebody = (person: string) => ({ person, mechanic: false, inspector: false, from_s: 0 });
