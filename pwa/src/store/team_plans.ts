/** The last plan of several cars, for when there is no server. */

import { type HeldTeam, teamOf } from "../report/team_plan";
import { answerRecord, keepAnswer } from "./answers";
import type { Db } from "./db";

const keyOf = (event: string) => `team-plan ${JSON.stringify([event])}`;

/** Keep a plan in place of the event's last one. */
export async function keepTeamPlan(db: Db, { plan, wish, heard_at, arrivals }: HeldTeam): Promise<void> {
  await keepAnswer(db, { key: keyOf(plan.event), answer: { plan, wish }, etag: null, heard_at, arrivals });
}

/** Return the last plan held of an event's cars, or null. */
export async function teamPlanHere(db: Db, event: string): Promise<HeldTeam | null> {
  const record = await answerRecord(db, keyOf(event));
  if (!record) return null;
  const { plan, wish } = record.answer as Pick<HeldTeam, "plan" | "wish">;
  const whole = teamOf(plan);
  return whole && { plan: whole, wish, heard_at: record.heard_at, arrivals: record.arrivals };
}
