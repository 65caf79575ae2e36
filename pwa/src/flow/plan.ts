/** Asks for a plan and keeps it; puts down its tasks, and who was told at service out. Loaded when it is first used. */

import { UserError } from "../kit/user_error";
import type { Briefing } from "../report/briefing";
import { changesBetween, chosen } from "../report/choices";
import { type Choice, type HeldPlan, type PlanWish, standings } from "../report/plan";
import type { IdentityRecord } from "../store/db";
import { identitiesHere, speakingAs } from "../store/identities";
import { readMeta } from "../store/meta";
import { keepBriefing, keepPlan } from "../store/plans";
import { fetchPlan, type Planned } from "../sync/plan";
import { type Core, say } from "./core";
import { newEntry } from "./entry";
import { fail, save } from "./save";
import { laterMessages } from "../kit/later_messages";

/** Choose the service to plan, until the app is opened again. */
export async function choosePlanned(core: Core, service: string): Promise<void> {
  core.page.planned = service;
  await core.refresh();
}

/** Ask the server for the plan of the chosen car's service, and keep it. Errors: UserError with why there is none. */
export async function askPlan(core: Core, service: string, wish: PlanWish): Promise<void> {
  await keepPlan(await core.db, await asked(core, service, wish));
  await core.refresh();
}

/**
 * Ask for a plan that nobody asked for with a tap: the rest, or a better one. One that changes nothing for anybody is
 * kept, another one is offered, but for what was made quickly and is only being improved. Returns whether a better one
 * may still come. Errors: UserError.
 */
export async function askQuietly(core: Core, service: string, wish: PlanWish): Promise<boolean> {
  const { state } = core.snapshot();
  const next = await asked(core, service, wish);
  const held = state.plans.find((one) => one.plan.service === service);
  const isQuick = next.plan.by === "greedy" && !next.plan.settled;
  if (held && held.plan.by !== "greedy" && isQuick) return true;
  const standing = held && state.setup ? standings(held, state.entries, state.setup) : new Map();
  const isFree = !held || held.plan.by === "greedy" || !changesBetween(held.plan, next.plan, standing).length;
  await keepPlan(await core.db, isFree ? next : { ...held, offer: next });
  await core.refresh();
  return !next.plan.settled;
}

async function asked(core: Core, service: string, wish: PlanWish): Promise<Omit<HeldPlan, "offer">> {
  const { speaking, state } = core.snapshot();
  if (!speaking || !state.setup || !state.car) throw new UserError(laterMessages.planCarFirst);
  // Counted before asking: an entry that arrives meanwhile may not be in the plan.
  const arrivals = await readMeta(await core.db, "arrivals");
  const about = { event: state.setup.event, car: state.car, service };
  const planned = await fetchPlan(core.fetch, speaking.token, about, wish);
  if (!("plan" in planned)) throw whyNot(planned);
  const plan = chosen(planned.plan, wish.choice ?? "on-time");
  return { plan, wish, heard_at: new Date(core.now()).toISOString(), arrivals };
}

/** Work by another of the plans that are at hand. */
export async function choosePlan(core: Core, service: string, choice: Choice): Promise<void> {
  await change(core, service, (held) => ({
    ...held,
    plan: chosen(held.plan, choice),
    wish: { ...held.wish, choice },
    offer: null,
  }));
}

/** Take the plan that is offered, or keep to the one that people work by. */
export async function answerOffer(core: Core, service: string, take: boolean): Promise<void> {
  await change(core, service, (held) => (take && held.offer ? held.offer : { ...held, offer: null }));
}

async function change(core: Core, service: string, to: (held: HeldPlan) => HeldPlan): Promise<void> {
  const held = core.snapshot().state.plans.find((one) => one.plan.service === service);
  if (!held) return;
  await keepPlan(await core.db, to(held));
  await core.refresh();
}

function whyNot(planned: Exclude<Planned, { plan: unknown }>): UserError {
  if (planned.kind === "problem")
    return new UserError(`${planned.problem.title}. ${planned.problem.detail ?? ""}`.trim());
  return new UserError(laterMessages.planNoServer);
}

/** Somebody is on a task of the plan that is no job. */
export async function startTask(core: Core, service: string, task: string): Promise<void> {
  await save(core, (by, now) => [newEntry("task.started", task, { service }, by, now)], laterMessages.started);
}

/** Such a task is done. */
export async function finishTask(core: Core, service: string, task: string): Promise<void> {
  await save(core, (by, now) => [newEntry("task.finished", task, { service }, by, now)], laterMessages.taskDone);
}

/** Keep a copy of what is shown in service: it may be read on the road, as a card that was given. */
export async function keepCopy(core: Core, briefing: Briefing): Promise<void> {
  await keepBriefing(await core.db, briefing);
  await core.refresh();
}

/**
 * Put down that a person was told, as that person: whoever joined on this phone. `pin`: asked where another than who
 * speaks chose one. Errors: UserError.
 */
export async function acknowledgeBriefing(core: Core, briefing: Briefing, person: string, pin: string): Promise<void> {
  const told = await toldHere(core, person, pin);
  const { service, queue } = briefing;
  await keepBriefing(await core.db, briefing);
  const isOther = told.person !== core.snapshot().speaking?.person;
  await save(
    core,
    (by, now) => {
      const as = { ...by, person: told.person, device: told.device };
      return [newEntry("briefing.acknowledged", service, { service, queue }, as, now)];
    },
    laterMessages.told(told.name),
  );
  if (!isOther) return;
  // Only he himself or a manager can take it back: an undo by who speaks would count for nothing.
  say(core, laterMessages.told(told.name));
  await core.refresh();
}

async function toldHere(core: Core, person: string, pin: string): Promise<IdentityRecord> {
  const told = speakingAs(await identitiesHere(await core.db), person);
  if (!told) return fail(core, laterMessages.toldElsewhere);
  if (told.pin && told.person !== core.snapshot().speaking?.person) {
    await (await import("./pins")).checkPin(core, told.device, pin);
  }
  return told;
}
