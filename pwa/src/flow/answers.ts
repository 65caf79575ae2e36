/** Fetches what this tab shows and the phone does not hold: set-up, queue, costs; nothing that may not be shown. */

import type { Setup } from "../kit/api";
import { livesKey, queueKey, SETUP_KEY } from "../store/answers";
import { type CarOf, isSetupCurrent } from "../store/current";
import { identitiesHere, speakingAs } from "../store/identities";
import { type Asked, askOnce, fetchLives, fetchQueue, fetchSetup } from "../sync/answers";
import { isWorking } from "../report/road";
import { managerOf } from "../sync/manager";
import type { Deps } from "../sync/round";
import type { Core } from "./core";
import { carsBeside, showsLives } from "./route";

/** Screens of a manager's desk, which show nothing of a queue. */
const DESK = ["costs", "statement", "season", "setup"];

/**
 * Fetch what is not held as the server has it, then refresh; a queue that a crew on the road may not see is not even
 * asked for. Returns what became of it. `anyway`: ask for all of it, whatever the phone was told.
 */
export async function askAnswers(core: Core, deps: Deps, anyway = false): Promise<Asked[]> {
  // As the store has it: in the round before this, the server may have refused whom the screen still speaks as.
  const token = speakingAs(await identitiesHere(deps.db), core.page.person)?.token;
  const isHeld = !token || (!anyway && (await isSetupCurrent(deps.db, SETUP_KEY, core.snapshot().known.setup)));
  const asked = isHeld ? [] : [await fetchSetup(deps, token)];
  await core.refresh();
  if (!token) return asked;
  const ofCar = (await askOfCar(core, deps, token, anyway)).filter((one) => one !== null);
  if (ofCar.length > 0) await core.refresh();
  await keepFiles(core, deps, anyway);
  return [...asked, ...ofCar];
}

/** Fetch what the screen shows of the car; null stands for what is held. */
async function askOfCar(core: Core, deps: Deps, token: string, anyway: boolean): Promise<(Asked | null)[]> {
  const { setup, car, advice, route, identity } = core.snapshot().state;
  if (!setup || !car || !advice) return [];
  const of = { event: setup.event, car };
  if (route.screen === "passes" && isWorking(identity?.roles ?? [])) {
    return [await (await import("./passes")).askPasses(deps, token, of, anyway)];
  }
  if (!DESK.includes(route.screen)) {
    const queues: (Asked | null)[] = [];
    for (const one of [car, ...carsBeside(route)]) {
      const fetching = () => fetchQueue(deps, token, of.event, one);
      const asked = askOnce(deps, queueKey(of.event, one), { ...of, car: one }, anyway, fetching);
      queues.push(await asked);
    }
    return [...queues, ...(await askLives(core, deps, token, of, anyway))];
  }
  if (route.screen === "setup" || !identity?.roles.includes("manager")) return [];
  const shown = await (await managing()).askForScreen(core, deps, token, of, anyway);
  return [...shown, ...(await askLives(core, deps, token, of, anyway))];
}

/** Fetch which parts are due where that is shown, the set-up gives any a life, and the person works on the car. */
async function askLives(core: Core, deps: Deps, token: string, of: CarOf, anyway: boolean): Promise<(Asked | null)[]> {
  const { setup, route, identity } = core.snapshot().state;
  const works = identity?.roles.some((role) => role !== "driver" && role !== "co-driver");
  if (!works || (setup?.lives ?? []).length === 0 || !showsLives(route.screen)) return [];
  return [await askOnce(deps, livesKey(of.event, of.car), of, anyway, () => fetchLives(deps, token, of))];
}

const managing = () => import("./managing");

/** A manager's phone keeps every event's files, so that it can bring them to a server that lost them. */
async function keepFiles(core: Core, deps: Deps, anyway: boolean): Promise<void> {
  // As the store was read just now: the set-up is long.
  const { setup, identities } = core.snapshot().known;
  const events = (setup?.answer as Setup | undefined)?.events ?? [];
  const manager = managerOf(identities, events, core.page.person);
  if (!manager) return;
  // Without a signal before the app is all here, the next news bring it.
  const loaded = await managing().catch(() => null);
  await loaded?.keepFiles(deps, manager.token, events, anyway);
}
