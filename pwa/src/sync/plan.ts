/** Asks the server for a service plan, and reads what it answers. */

import type { PlanWish, ShownPlan } from "../report/plan";
import { completed, type SaidPlan } from "../report/said_plan";
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

function bodyOf(service: string, { mechanics, minutes, away, at, ready_by, previous }: PlanWish) {
  return {
    service,
    ...(mechanics === null ? {} : { mechanics }),
    ...(minutes === null ? {} : { minutes }),
    ...(Object.keys(away).length === 0 ? {} : { away }),
    ...(at === null ? {} : { at }),
    ...(ready_by === undefined ? {} : { ready_by }),
    ...(previous === undefined ? {} : { previous: { tasks: previous } }),
  };
}

/** Return a plan with every field there, or null for what is none. */
export function planOf(body: unknown): ShownPlan | null {
  if (!isObject(body) || !Array.isArray(body.tasks) || !Array.isArray(body.left_out)) return null;
  return completed(body as unknown as SaidPlan);
}
