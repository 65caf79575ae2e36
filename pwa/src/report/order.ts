/** The order in which entries are shown: by their clocks, which decide nothing else. */

import type { Entry } from "../kit/api";
import { msOf } from "../kit/time";

/** Compare two entries by `at`, then by id, oldest first. */
export function byTime(a: Entry, b: Entry): number {
  const difference = (msOf(a.at) ?? 0) - (msOf(b.at) ?? 0);
  return difference || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

/** Return ids ascending and unique, as every array of ids is. */
export function idSet(ids: Iterable<string>): string[] {
  return [...new Set(ids)].sort();
}
