/** Asks for the plan of several cars with one crew, and keeps it. Loaded when it is first used. */

import { UserError } from "../kit/user_error";
import { laterMessages } from "../kit/later_messages";
import type { Choice } from "../report/plan";
import { chosenTeam, type HeldTeam, type TeamWish } from "../report/team_plan";
import { readMeta } from "../store/meta";
import { keepTeamPlan } from "../store/team_plans";
import { fetchTeamPlan } from "../sync/team_plan";
import type { Core } from "./core";

/** Ask the server for the plan of these cars, and keep it. Errors: UserError with why there is none. */
export async function askTeamPlan(core: Core, wish: TeamWish): Promise<void> {
  await keepTeamPlan(await core.db, await asked(core, wish));
  await core.refresh();
}

/**
 * Ask for what was made quickly once more: kept where the better one is there. Returns whether it may still come.
 * Errors: UserError.
 */
export async function improveTeamPlan(core: Core): Promise<boolean> {
  const held = core.snapshot().state.team_plan;
  if (!held || held.plan.by === "solver") return false;
  const next = await asked(core, held.wish);
  // Somebody planned anew meanwhile: what answers the older question is nobody's.
  if (core.snapshot().state.team_plan?.heard_at !== held.heard_at) return true;
  if (next.plan.by === "greedy") return true;
  await keepTeamPlan(await core.db, next);
  await core.refresh();
  return false;
}

/** Work by another of the plans that are at hand for all cars. */
export async function chooseTeamPlan(core: Core, choice: Choice): Promise<void> {
  const held = core.snapshot().state.team_plan;
  if (!held) return;
  const wish = { ...held.wish, choice };
  await keepTeamPlan(await core.db, { ...held, wish, plan: chosenTeam(held.plan, choice) });
  await core.refresh();
}

async function asked(core: Core, wish: TeamWish): Promise<HeldTeam> {
  const { speaking, state } = core.snapshot();
  if (!speaking || !state.setup) throw new UserError(laterMessages.planCarFirst);
  // Counted before asking: an entry that arrives meanwhile may not be in the plan.
  const arrivals = await readMeta(await core.db, "arrivals");
  const planned = await fetchTeamPlan(core.fetch, speaking.token, state.setup.event, wish);
  if (!("plan" in planned)) {
    throw new UserError(
      planned.kind === "problem"
        ? `${planned.problem.title}. ${planned.problem.detail ?? ""}`.trim()
        : laterMessages.planNoServer,
    );
  }
  const plan = chosenTeam(planned.plan, wish.choice ?? "on-time");
  return { plan, wish, heard_at: new Date(core.now()).toISOString(), arrivals };
}
