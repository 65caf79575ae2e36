/** Remembers what a person has seen of the queue. */

import { lookOf } from "../report/fresh";
import { writeLook } from "../store/meta";
import type { RunningCore } from "./core";

/** This person has seen the queue as it is: `fresh_jobs` becomes empty. */
export async function lookedAtQueue(core: RunningCore): Promise<void> {
  const { identity, setup, car, queue } = core.snapshot().state;
  if (!identity || !setup || !car || !queue) return;
  await writeLook(await core.db, identity.person, setup.event, car, lookOf(queue.answer));
  core.running.tabs.tell("store");
  await core.refresh();
}
