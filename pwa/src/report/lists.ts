/** Lists of entries, which nobody changes: the entries themselves, those of one car, those of one kind; each is kept by its list. */

import type { Entry, EntryOf, Kind } from "../kit/api";
import { bring, type Change, keptGroups, keptUp } from "../kit/growing";
import { saysTheSame } from "../kit/signing";
import type { LocalEntry } from "./local_entry";

export const idOf = ({ id }: Entry): string => id;
export const idOfHeld = ({ entry }: LocalEntry): string => entry.id;

/** Return the entries themselves; of the same list, or where only how they are sent is another, the same list. */
export const entriesOf = keptUp<LocalEntry, Entry[]>(
  (held) => held.map((one) => one.entry),
  (before, changes) => {
    const entries = changes.map(({ was, now }) => ({ was: was?.entry, now: now?.entry }));
    return bring(
      before,
      entries.filter(({ was, now }) => was !== now),
      idOf,
    );
  },
);

const byCar = keptGroups((entry: Entry) => entry.car, idOf);
const byKind = keptGroups((entry: Entry) => entry.kind, idOf);
const NONE: never[] = [];

/** Return those of one car; nobody changes a list of entries. */
export const ofCar = (entries: Entry[], car: string): Entry[] => byCar(entries).get(car) ?? NONE;

/** Return those of one kind. */
export function ofKind<K extends Kind>(entries: Entry[], kind: K): (Entry & EntryOf<K>)[] {
  return (byKind(entries).get(kind) ?? NONE) as (Entry & EntryOf<K>)[];
}

/** Say whether an entry was only signed: what it says stays, and all that follows from it. */
export const isSigned = ({ was, now }: Change<Entry>): boolean =>
  was !== undefined && now !== undefined && saysTheSame(was, now);
