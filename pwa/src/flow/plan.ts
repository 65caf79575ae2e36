/** Asks for a plan and keeps it; puts down its tasks, and who was told at service out. Loaded when it is first used. */

import { UserError } from "../kit/user_error";
import type { Briefing } from "../report/briefing";
import type { PlanWish } from "../report/plan";
import type { IdentityRecord } from "../store/db";
import { identitiesHere, speakingAs } from "../store/identities";
import { readMeta } from "../store/meta";
import { keepBriefing, keepPlan } from "../store/plans";
import { fetchPlan, type Planned } from "../sync/plan";
import { type Core, say } from "./core";
import { newEntry } from "./entry";
import { fail, save } from "./save";
import { messages } from "../kit/messages";
import { laterMessages } from "../kit/later_messages";

/** Choose the service to plan, until the app is opened again. */
export async function choosePlanned(core: Core, service: string): Promise<void> {
  core.page.planned = service;
  await core.refresh();
}

/** Ask the server for the plan of the chosen car's service, and keep it. Errors: UserError with why there is none. */
export async function askPlan(core: Core, service: string, wish: PlanWish): Promise<void> {
  const { speaking, state } = core.snapshot();
  if (!speaking || !state.setup || !state.car) throw new UserError(laterMessages.planCarFirst);
  const db = await core.db;
  // Counted before asking: an entry that arrives meanwhile may not be in the plan.
  const arrivals = await readMeta(db, "arrivals");
  const asked = { event: state.setup.event, car: state.car, service };
  const planned = await fetchPlan(core.fetch, speaking.token, asked, wish);
  if (!("plan" in planned)) throw whyNot(planned);
  await keepPlan(db, { plan: planned.plan, wish, heard_at: new Date(core.now()).toISOString(), arrivals });
  await core.refresh();
}

function whyNot(planned: Exclude<Planned, { plan: unknown }>): UserError {
  if (planned.kind === "problem")
    return new UserError(`${planned.problem.title}. ${planned.problem.detail ?? ""}`.trim());
  return new UserError(laterMessages.planNoServer);
}

/** Somebody is on a task of the plan that is no job. */
export async function startTask(core: Core, service: string, task: string): Promise<void> {
  await save(core, (by, now) => [newEntry("task.started", task, { service }, by, now)], messages.started);
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
