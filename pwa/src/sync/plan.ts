/** Asks the server for a service plan, and reads what it answers. */

import type { Plan } from "../kit/api";
import type { PlanWish, ShownPlan } from "../report/plan";
import { call, type Fetch, isObject, type Reply } from "./wire";

/** What became of asking: a plan, or why there is none. */
export type Planned = { plan: ShownPlan } | Exclude<Reply, { kind: "ok" | "same" }>;

/** Ask for the plan of a car's service. */
export async function fetchPlan(
  fetcher: Fetch,
  token: string,
  { event, car, service }: { event: string; car: string; service: string },
  wish: PlanWish,
): Promise<Planned> {
  const path = `/events/${encodeURIComponent(event)}/cars/${encodeURIComponent(car)}/plan`;
  const reply = await call(fetcher, { method: "POST", path, token, json: bodyOf(service, wish) });
  if (reply.kind === "problem" || reply.kind === "unreachable") return reply;
  const plan = reply.kind === "ok" ? planOf(reply.body) : null;
  const isAsked = plan?.event === event && plan.car === car && plan.service === service;
  return plan && isAsked ? { plan } : { kind: "unreachable", retry_after_s: null };
}

function bodyOf(service: string, { mechanics, minutes, away, at }: PlanWish) {
  return {
    service,
    ...(mechanics === null ? {} : { mechanics }),
    ...(minutes === null ? {} : { minutes }),
    ...(Object.keys(away).length === 0 ? {} : { away }),
    ...(at === null ? {} : { at }),
  };
}

/** Return a plan with every field there, or null for what is none: an older server does not say all of it. */
export function planOf(body: unknown): ShownPlan | null {
  if (!isObject(body) || !Array.isArray(body.tasks) || !Array.isArray(body.left_out)) return null;
  const said = body as Partial<Plan> & Pick<Plan, "event" | "car" | "service" | "tasks" | "left_out">;
  const { finish_s = 0, spare_s = 0, by = "greedy" } = said;
  const tasks = said.tasks.map((task) => ({ ...task, state: task.state ?? "planned", critical: task.critical ?? 0 }));
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
    later: (said.later ?? []).map((one) => ({ ...one, drops: one.drops ?? [], proven: one.proven ?? false })),
  };
}

const NOTHING_SAID = {
  minutes: 0,
  rates: "",
  queue: "",
  stale: false,
  proven: false,
  on_time: 0,
  needs: null,
  entered_at: null,
  due_out: null,
  now_s: 0,
  done: [],
  hands: [],
  lateness: null,
} satisfies Partial<ShownPlan>;

const LEFT_OUT = { why: "time" as const, to: "next-service" as const, put_in_car: [], tools: [] };

const somebody = (person: string) => ({ person, mechanic: false, inspector: false, from_s: 0 });
