/** Asks the server for the plan of several cars, and reads what it answers. */

import { type ShownTeam, teamOf, type TeamWish } from "../report/team_plan";
import { call, type Fetch, type Reply } from "./wire";

/** What became of asking: a plan, or why there is none. */
export type TeamPlanned = { plan: ShownTeam } | Exclude<Reply, { kind: "ok" | "same" }>;

/** Ask for the plan of several cars of an event. */
export async function fetchTeamPlan(
  fetcher: Fetch,
  token: string,
  event: string,
  wish: TeamWish,
): Promise<TeamPlanned> {
  const path = `/events/${encodeURIComponent(event)}/plan`;
  const reply = await call(fetcher, { method: "POST", path, token, json: bodyOf(wish) });
  if (reply.kind === "problem" || reply.kind === "unreachable") return reply;
  const plan = reply.kind === "ok" ? teamOf(reply.body) : null;
  return plan && isAsked(plan, event, wish) ? { plan } : { kind: "unreachable", retry_after_s: null };
}

function isAsked(plan: ShownTeam, event: string, { service, cars }: TeamWish): boolean {
  const isOf = plan.cars.every((one) => one.service === service && cars.includes(one.car));
  return plan.event === event && isOf && plan.cars.length === cars.length;
}

function bodyOf({ service, cars, mechanics, away, at, previous }: TeamWish) {
  return {
    visits: cars.map((car) => ({ car, service })),
    ...(mechanics === null ? {} : { mechanics }),
    ...(Object.keys(away).length === 0 ? {} : { away }),
    ...(at === null ? {} : { at }),
    ...(previous === undefined ? {} : { previous }),
  };
}
