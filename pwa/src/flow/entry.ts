/** Builds an entry: who says what of which car, when. */

import type { DataOf, Kind } from "../kit/api";
import { whole } from "../kit/code_points";
import { localIso } from "../kit/time";
import { uuid7 } from "../kit/uuid7";
import type { NewEntry } from "../store/entries";

/** Who speaks, where. */
export interface Speaker {
  person: string;
  device: string;
  event: string;
  car: string;
}

/** Return a new entry; one without a subject of its own (a filed report) is its own subject. */
export function newEntry<K extends Kind>(
  kind: K,
  subject: string | null | "own",
  data: DataOf[K],
  speaker: Speaker,
  now_ms: number,
): NewEntry {
  const id = uuid7(now_ms);
  const { event, car, device, person } = speaker;
  const own = subject === "own" ? id : subject;
  const at = localIso(now_ms);
  // TypeScript can't see that a kind and its own data make one of the union's entries.
  return { id, v: 1, kind, event, car, subject: own, at, device, person, data: whole(data) } as unknown as NewEntry;
}

/** An entry has at most 16 KiB, and an id in it takes 39 bytes: so many ids fit with room to spare. */
const MOST_COVERED = 350;

/** Return ids in lists that each fit an entry; one empty list for none. */
export function inEntries(ids: string[]): string[][] {
  const lists: string[][] = [];
  for (let start = 0; start < ids.length; start += MOST_COVERED) lists.push(ids.slice(start, start + MOST_COVERED));
  return lists.length > 0 ? lists : [[]];
}
