/** Fetches what the screens of this tab show: set-up, queue, costs; nothing that may not be shown. */

import type { Deps } from "../sync/round";
import { type Asked, fetchCosts, fetchQueue, fetchSetup } from "../sync/answers";
import type { Core } from "./core";

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
    if (wantsCosts(core)) asked.push(await fetchCosts(deps, token, event, state.car));
    await core.refresh();
  }
  return asked;
}

function wantsCosts(core: Core): boolean {
  const { identity, route } = core.snapshot().state;
  return route.screen === "costs" && (identity?.roles.includes("manager") ?? false);
}
