/**
 * Lists that nobody changes and that grow: what was worked out from one is brought forward to the next by what came.
 *
 * A phone holds a season's entries, and each tap adds one. To go through all of them after each tap is felt; so a list
 * that was made from another by `bring` knows which one that was and what is different, and `keptUp` makes its answer of
 * the answer before. Without one, or where `on` does not know how, all is gone through: the answer is the same.
 */

import { grouped } from "./grouped";

/** At one place of a list; `was` is absent where it was put in, `now` where it was taken out. */
export interface Change<T> {
  was?: T | undefined;
  now?: T | undefined;
}

interface Step {
  before: unknown[];
  changes: Change<unknown>[];
}

/** How a list came from the one before; not held for longer than a few lists, each of which would hold the one before. */
const steps = new WeakMap<unknown[], Step>();
const MOST_STEPS = 8;

/** Says the name of a value; lists that are brought forward are in the order of the names. */
type Named<T> = (one: T) => string;

/** Return a list with what changed; the very same where nothing did. */
export function bring<T>(before: T[], changes: Change<T>[], idOf: Named<T>): T[] {
  if (changes.length === 0) return before;
  const list = [...before];
  for (const { was, now } of changes) {
    const at = placeOf(list, idOf((was ?? now) as T), idOf);
    list.splice(at, was ? 1 : 0, ...(now ? [now] : []));
  }
  steps.set(list, { before, changes });
  let far: unknown[] | undefined = before;
  for (let count = 1; far && count < MOST_STEPS; count++) far = steps.get(far)?.before;
  if (far) steps.delete(far);
  return list;
}

/** Return where a name is, or where it belongs. */
export function placeOf<T>(list: readonly T[], id: string, idOf: Named<T>): number {
  let [from, to] = [0, list.length];
  // The newest, mostly.
  if (to > 0 && idOf(list[to - 1] as T) < id) return to;
  while (from < to) {
    const middle = (from + to) >> 1;
    if (idOf(list[middle] as T) < id) from = middle + 1;
    else to = middle;
  }
  return from;
}

/**
 * Return `whole` keeping its answer by the list that it was asked of.
 *
 * on: makes the answer of an older list that of `list`, by what changed in between, in that order; null where it can't.
 */
export function keptUp<T, Answer extends object>(
  whole: (list: T[]) => Answer,
  on: (before: Answer, changes: Change<T>[], list: T[], older: T[]) => Answer | null = () => null,
): (list: T[]) => Answer {
  const known = new WeakMap<T[], Answer>();
  const broughtOn = (list: T[]): Answer | null => {
    let changes: Change<T>[] = [];
    for (let step = steps.get(list); step; step = steps.get(step.before)) {
      changes = [...(step.changes as Change<T>[]), ...changes];
      const before = known.get(step.before as T[]);
      if (before) return on(before, changes, list, step.before as T[]);
    }
    return null;
  };
  return (list) => {
    const answer = known.get(list) ?? broughtOn(list) ?? whole(list);
    known.set(list, answer);
    return answer;
  };
}

/** Return what gives those of a list that are to be kept: the list itself where all are. */
export function keptFilter<T>(keeps: (one: T) => boolean, idOf: Named<T>): (list: T[]) => T[] {
  return keptUp<T, T[]>(
    (list) => (list.every(keeps) ? list : list.filter(keeps)),
    (before, changes, list, older) => {
      const kept = changes.map(({ was, now }) => ({ was: only(keeps, was), now: only(keeps, now) }));
      if (before === older && kept.every(({ now }) => now)) return list;
      return bring(before, kept.filter(isChange), idOf);
    },
  );
}

const only = <T>(keeps: (one: T) => boolean, one: T | undefined) => (one && keeps(one) ? one : undefined);
const isChange = ({ was, now }: Change<unknown>) => was !== undefined || now !== undefined;

/** Return what gives a list in groups, each in its order, the groups by their first; one that is all is the list itself. */
export function keptGroups<T, Key>(keyOf: (one: T) => Key, idOf: Named<T>): (list: T[]) => ReadonlyMap<Key, T[]> {
  const wholeOf = (groups: Map<Key, T[]>, list: T[]) => {
    const [only_key] = groups.keys();
    return groups.size === 1 ? new Map([[only_key as Key, list]]) : groups;
  };
  return keptUp<T, Map<Key, T[]>>(
    (list) => wholeOf(grouped(list, keyOf), list),
    (before, changes, list) => {
      const groups = new Map(before);
      for (const [key, own] of grouped(changes.flatMap(parted(keyOf)), ({ was, now }) => keyOf((was ?? now) as T))) {
        groups.set(key, bring(before.get(key) ?? [], own, idOf));
      }
      const filled = [...groups].filter(([, group]) => group.length > 0);
      const first = ([, [one]]: [Key, T[]]) => idOf(one as T);
      return wholeOf(new Map(filled.sort((one, other) => (first(one) < first(other) ? -1 : 1))), list);
    },
  );
}

/** Of what goes from one group into another one takes its leave, the other gets it. */
const parted =
  <T>(keyOf: (one: T) => unknown) =>
  ({ was, now }: Change<T>): Change<T>[] =>
    was && now && keyOf(was) !== keyOf(now) ? [{ was }, { now }] : [{ was, now }];

/** Return what keeps one thing made for each object, and one for none: as for a set-up. */
export function keptFor<Key extends object | null, Made>(make: (key: Key) => Made): (key: Key) => Made {
  const made = new WeakMap<object, Made>();
  return (key) => {
    const known = made.get(key ?? made) ?? make(key);
    made.set(key ?? made, known);
    return known;
  };
}
