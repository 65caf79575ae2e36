/** Fetches which inspections signed as passed do not count. Loaded when it is first used. */

import type { Passes } from "../kit/api";
import { toldKey } from "../report/told";
import { passesHere, passesKey } from "../store/answers";
import type { CarOf } from "../store/current";
import { readMeta, writeMeta } from "../store/meta";
import { type Asked, askOnce, type Deps, fetchAnswer } from "../sync/answers";
import type { Core, RunningCore } from "./core";
import type { CountedBefore } from "./model";

/** Fetch a car's passes that do not count, where they are not held as the server has them; null where they are. */
export function askPasses(deps: Deps, token: string, of: CarOf, anyway: boolean): Promise<Asked | null> {
  const key = passesKey(of.event, of.car);
  return askOnce(deps, key, of, anyway, () => fetchPasses(deps, token, of));
}

function fetchPasses(deps: Deps, token: string, { event, car }: CarOf): Promise<Asked> {
  const path = `/events/${encodeURIComponent(event)}/cars/${encodeURIComponent(car)}/passes`;
  const isPasses = (body: Record<string, unknown>) =>
    body.event === event && body.car === car && Array.isArray(body.passes);
  return fetchAnswer(deps, token, path, passesKey(event, car), isPasses);
}

/**
 * Return the cars of the event that have such inspections; null where the server did not answer for each car.
 * A car of which the phone holds the server's last word is not asked about again.
 */
export async function countedBefore(core: Core): Promise<CountedBefore[] | null> {
  const { speaking, state } = core.snapshot();
  if (!speaking || !state.setup) return null;
  const deps: Deps = { db: await core.db, fetch: core.fetch, now: core.now };
  const { event, cars } = state.setup;
  const found: CountedBefore[] = [];
  for (const { car } of cars) {
    const asked = await askPasses(deps, speaking.token, { event, car }, false);
    const held = await passesHere(deps.db, event, car);
    if (asked === "refused" || asked === "unreachable" || !held) return null;
    const passes = held.answer.passes.filter(isStillToMake).length;
    if (passes > 0) found.push({ car, passes });
  }
  return found;
}

/** Counted by the older rules, and the job is not passed by anybody since. */
const isStillToMake = (one: Passes["passes"][number]) =>
  one.counted_before && (one.inspection === "needed" || one.inspection === "failed");

/** The person was told of them: not again on this phone. */
export async function toldOfPasses(core: RunningCore): Promise<void> {
  const { identity, setup } = core.snapshot().state;
  if (!identity || !setup) return;
  const db = await core.db;
  const before = await readMeta(db, "passes_told");
  await writeMeta(db, "passes_told", [...new Set([...before, toldKey(setup.event, identity.person)])]);
  core.running.tabs.tell("store");
  await core.refresh();
}
