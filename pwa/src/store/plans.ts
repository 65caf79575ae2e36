/** The last plan of each car and service, and the briefing that was given last, for when there is no server. */

import type { Briefing } from "../report/briefing";
import type { HeldPlan } from "../report/plan";
import { answerRecord, keepAnswer } from "./answers";
import type { Db } from "./db";

const planPrefix = (event: string, car: string) => `plan ${JSON.stringify([event, car])} `;
const briefingKey = (event: string, car: string) => `briefing ${JSON.stringify([event, car])}`;

/** Keep a plan in place of the last one of its car and service. */
export async function keepPlan(db: Db, held: HeldPlan): Promise<void> {
  const { plan, wish, heard_at, arrivals, offer = null } = held;
  const key = planPrefix(plan.event, plan.car) + plan.service;
  await keepAnswer(db, { key, answer: { plan, wish, offer }, etag: null, heard_at, arrivals });
}

/** Return the plans held of a car. */
export async function plansHere(db: Db, event: string, car: string): Promise<HeldPlan[]> {
  const prefix = planPrefix(event, car);
  const records = await db.getAll("answers", IDBKeyRange.bound(prefix, `${prefix}\uffff`));
  return records.map(({ answer, heard_at, arrivals }) => {
    const { plan, wish, offer } = answer as Pick<HeldPlan, "plan" | "wish" | "offer">;
    return { plan, wish, heard_at, arrivals, ...(offer ? { offer } : {}) };
  });
}

/** Keep a copy of a briefing as it was given. */
export async function keepBriefing(db: Db, briefing: Briefing): Promise<void> {
  const key = briefingKey(briefing.event, briefing.car);
  await keepAnswer(db, { key, answer: briefing, etag: null, heard_at: briefing.made_at, arrivals: 0 });
}

/** Return the last briefing of a car that was given on this phone, or null. */
export async function briefingHere(db: Db, event: string, car: string): Promise<Briefing | null> {
  return ((await answerRecord(db, briefingKey(event, car)))?.answer as Briefing | undefined) ?? null;
}
