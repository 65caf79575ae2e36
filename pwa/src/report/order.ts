/** The order in which entries are shown: by their clocks, which decide nothing else. */

import type { Entry } from "../kit/api";
import { msOf } from "../kit/time";

const times = new WeakMap<Entry, number>();

/** The time of an entry in Unix ms, 0 where it can't be read. Entries never change: each is read once. */
export function timeOf(entry: Entry): number {
  const known = times.get(entry);
  if (known !== undefined) return known;
  const ms = msOf(entry.at) ?? 0;
  times.set(entry, ms);
  return ms;
}

/** Compare two entries by `at`, then by id, oldest first. */
export function byTime(a: Entry, b: Entry): number {
  const difference = timeOf(a) - timeOf(b);
  return difference || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

/** Return ids ascending and unique, as every array of ids is. */
export function idSet(ids: Iterable<string>): string[] {
  return [...new Set(ids)].sort();
}
