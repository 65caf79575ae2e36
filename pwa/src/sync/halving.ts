/** A server that refuses a whole batch names no entry: the batch is halved until the one that it means is alone. */

import type { Problem } from "../kit/api";
import { settle } from "../store/entries";
import { type Batch, MOST_ENTRIES } from "./batch";
import type { Deps } from "./round";
import { standOf } from "./stand";

/** How many entries the next batch may have, 0 where asking again would be in vain; whether entries here changed. */
export interface Halved {
  most: number;
  changed: boolean;
}

/** Return what becomes of a batch that was refused whole; an entry that was alone in it is set aside. */
export async function halved({ db, now }: Deps, batch: Batch, problem: Problem): Promise<Halved> {
  const [only, ...others] = batch.entries;
  if (![400, 413, 422].includes(problem.status) || !only) return { most: 0, changed: false };
  if (others.length > 0) return { most: Math.max(1, Math.floor(batch.entries.length / 2)), changed: false };
  const kept = await standOf(db, batch.identity.device);
  const settled = { ...kept, accepted: [], rejected: [{ id: only.id, problem }], heard: [], new_log: false };
  return { most: MOST_ENTRIES, changed: await settle(db, settled, new Date(now()).toISOString()) };
}
