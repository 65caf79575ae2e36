/** Fetches what the screens of this tab show: set-up, queue, costs; nothing that may not be shown. */

import { setupHere } from "../store/answers";
import { identitiesHere } from "../store/identities";
import { type Asked, fetchCosts, fetchFiles, fetchQueue, fetchSetup, fetchStatements } from "../sync/answers";
import { managerOf } from "../sync/manager";
import type { Deps } from "../sync/round";
import type { Core } from "./core";
import type { Route } from "./model";

/** Fetch, then refresh; a queue that a crew on the road may not see is not even asked for. Returns what became of it. */
export async function askAnswers(core: Core, deps: Deps): Promise<Asked[]> {
  const token = core.snapshot().speaking?.token;
  if (!token) return [];
  const asked = [await fetchSetup(deps, token)];
  await core.refresh();
  const { state } = core.snapshot();
  if (state.setup && state.car && state.advice) {
    const { event } = state.setup;
    asked.push(await fetchQueue(deps, token, event, state.car));
    if (managerReads(core, "costs")) asked.push(await fetchCosts(deps, token, event, state.car));
    if (managerReads(core, "statement")) asked.push(await fetchStatements(deps, token, event, state.car));
    if (managerReads(core, "season")) {
      asked.push(...(await (await import("./season")).askSeason(core, deps, token, event)));
    }
    await core.refresh();
  }
  await keepFiles(core, deps);
  return asked;
}

/** A manager's phone keeps every event's files, so that it can bring them to a server that lost them. */
async function keepFiles(core: Core, deps: Deps): Promise<void> {
  const events = (await setupHere(deps.db))?.answer.events ?? [];
  const manager = managerOf(await identitiesHere(deps.db), events, core.page.person);
  if (!manager) return;
  for (const { event } of events) await fetchFiles(deps, manager.token, event);
}

function managerReads(core: Core, screen: Route["screen"]): boolean {
  const { identity, route } = core.snapshot().state;
  return route.screen === screen && (identity?.roles.includes("manager") ?? false);
}
