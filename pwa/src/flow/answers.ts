/** Fetches what the screens of this tab show and the phone does not hold: set-up, queue, costs; nothing that may not be shown. */

import { costsKey, filesKey, queueKey, SETUP_KEY, setupHere, statementsKey } from "../store/answers";
import { type CarOf, confirm, isCurrent, isSetupCurrent } from "../store/current";
import { identitiesHere } from "../store/identities";
import { type Asked, fetchCosts, fetchFiles, fetchQueue, fetchSetup, fetchStatements } from "../sync/answers";
import { managerOf } from "../sync/manager";
import type { Deps } from "../sync/round";
import type { Core } from "./core";
import type { Route } from "./model";

/** Screens that show nothing of a queue. */
const WITHOUT_QUEUE: Route["screen"][] = ["costs", "statement", "season", "setup", "me", "about"];

/**
 * Fetch what is not held as the server has it, then refresh; a queue that a crew on the road may not see is not even
 * asked for. Returns what became of it. `anyway`: ask for all of it, whatever the phone was told.
 */
export async function askAnswers(core: Core, deps: Deps, anyway = false): Promise<Asked[]> {
  const token = core.snapshot().speaking?.token;
  if (!token) {
    await core.refresh();
    return [];
  }
  const isHeld = !anyway && (await isSetupCurrent(deps.db, SETUP_KEY));
  const asked = isHeld ? [] : [await fetchSetup(deps, token)];
  await core.refresh();
  const ofCar = await askOfCar(core, deps, token, anyway);
  if (ofCar) {
    asked.push(...ofCar);
    await core.refresh();
  }
  await keepFiles(core, deps, anyway);
  return asked;
}

/** Fetch what the screen shows of the car; null where all of it is held. */
async function askOfCar(core: Core, deps: Deps, token: string, anyway: boolean): Promise<Asked[] | null> {
  const { setup, car, advice, route } = core.snapshot().state;
  if (!setup || !car || !advice) return null;
  const of = { event: setup.event, car };
  const asked: (Asked | null)[] = [];
  const ask = async (key: string, fetching: () => Promise<Asked>) =>
    asked.push(await askOnce(deps, key, of, anyway, fetching));
  if (!WITHOUT_QUEUE.includes(route.screen)) {
    await ask(queueKey(of.event, car), () => fetchQueue(deps, token, of.event, car));
  }
  if (managerReads(core, "costs")) {
    await ask(costsKey(of.event, car), () => fetchCosts(deps, token, of.event, car));
  }
  if (managerReads(core, "statement")) {
    await ask(statementsKey(of.event, car), () => fetchStatements(deps, token, of.event, car));
  }
  if (managerReads(core, "season")) {
    asked.push(...(await (await import("./season")).askSeason(core, deps, token, of.event)));
  }
  const news = asked.filter((one) => one !== null);
  return news.length > 0 ? news : null;
}

async function askOnce(
  deps: Deps,
  key: string,
  of: CarOf,
  anyway: boolean,
  fetching: () => Promise<Asked>,
): Promise<Asked | null> {
  if (anyway || !(await isCurrent(deps.db, key, of))) return fetching();
  await confirm(deps.db, key, new Date(deps.now()).toISOString());
  return null;
}

/** A manager's phone keeps every event's files, so that it can bring them to a server that lost them. */
async function keepFiles(core: Core, deps: Deps, anyway: boolean): Promise<void> {
  const events = (await setupHere(deps.db))?.answer.events ?? [];
  const manager = managerOf(await identitiesHere(deps.db), events, core.page.person);
  if (!manager) return;
  for (const { event } of events) {
    const isHeld = !anyway && (await isCurrent(deps.db, filesKey(event), null));
    if (!isHeld) await fetchFiles(deps, manager.token, event);
  }
}

function managerReads(core: Core, screen: Route["screen"]): boolean {
  const { identity, route } = core.snapshot().state;
  return route.screen === screen && (identity?.roles.includes("manager") ?? false);
}
