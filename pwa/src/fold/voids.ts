/** Undo of a mis-tap: which entries of a car stand, those taken back by an `entry.voided` left out. */

import type { Entry, EventSetup, Kind } from "../kit/api";
import { byCodePoint } from "../kit/code_points";
import { isKind } from "../report/local_entry";
import { isFailedPass, mayVoid } from "../report/voided";

/** Kinds that say that somebody worked on a job. */
const WORK: readonly Kind[] = ["job.started", "job.finished"];

/** Say whether the entry counts as a failed inspection: said so, or passed with a check that is false. */
export function failed(entry: Entry): boolean {
  return isKind(entry, "inspection.failed") || isFailedPass(entry);
}

/** Return the entries of one car that no `entry.voided` among them takes back, each once, by id. */
export function standing(entries: Iterable<Entry>, setup: EventSetup): Entry[] {
  const by_id = new Map([...entries].map((entry) => [entry.id, entry]));
  const gone = voidersIn(by_id, setup);
  return [...by_id.values()].filter((entry) => !gone.has(entry.id)).sort(byId);
}

/**
 * Return starts and finishes of jobs that only their own author took back, by id.
 *
 * They count as work all the same: undoing one's own entry does not undo having worked. A manager who takes back
 * somebody else's says that it never was.
 */
export function undoneWork(entries: Iterable<Entry>, setup: EventSetup): Entry[] {
  const by_id = new Map([...entries].map((entry) => [entry.id, entry]));
  const voided = [...voidersIn(by_id, setup)].flatMap(([name, by]) => {
    const entry = by_id.get(name);
    return entry && WORK.includes(entry.kind) && by.every((person) => person === entry.person) ? [entry] : [];
  });
  return voided.sort(byId);
}

const byId = (a: Entry, b: Entry) => byCodePoint(a.id, b.id);

/** Return who took back each entry that is taken back, by its id. */
function voidersIn(by_id: ReadonlyMap<string, Entry>, setup: EventSetup): Map<string, string[]> {
  const voiders = new Map<string, string[]>();
  for (const entry of by_id.values()) {
    if (!isKind(entry, "entry.voided")) continue;
    for (const name of entry.data.voids ?? []) {
      const target = by_id.get(name);
      if (!target || !mayVoid(target, entry.person, setup)) continue;
      voiders.set(name, [...(voiders.get(name) ?? []), entry.person]);
    }
  }
  return voiders;
}
