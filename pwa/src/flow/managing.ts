/** Fetches what only a manager's phone reads or keeps. Loaded when it is first used. */

import type { EventSetup } from "../kit/api";
import { costsKey, filesKey, statementsKey } from "../store/answers";
import type { CarOf } from "../store/current";
import { type Asked, askOnce } from "../sync/answers";
import { fetchCosts, fetchFiles, fetchStatements } from "../sync/managers_answers";
import type { Deps } from "../sync/round";
import type { Core } from "./core";
import { askSeason } from "./season";

/** Fetch what the screen shows a manager of a car, or of the season; null stands for what is held. */
export async function askForScreen(
  core: Core,
  deps: Deps,
  token: string,
  of: CarOf,
  anyway: boolean,
): Promise<(Asked | null)[]> {
  const { event, car } = of;
  const { screen } = core.snapshot().state.route;
  if (screen === "season") return askSeason(core, deps, token, event);
  const [key, fetching] =
    screen === "costs"
      ? [costsKey(event, car), () => fetchCosts(deps, token, event, car)]
      : [statementsKey(event, car), () => fetchStatements(deps, token, event, car)];
  return [await askOnce(deps, key, of, anyway, fetching)];
}

/** Fetch the files of every event, which a manager's phone brings to a server that lost them. */
export async function keepFiles(deps: Deps, token: string, events: EventSetup[], anyway: boolean): Promise<void> {
  for (const { event } of events) {
    await askOnce(deps, filesKey(event), null, anyway, () => fetchFiles(deps, token, event));
  }
}
