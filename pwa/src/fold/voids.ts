/** Undo of a mis-tap: which entries of a car stand, those taken back by an `entry.voided` left out. */

import type { Entry, EventSetup } from "../kit/api";
import { byCodePoint } from "../kit/code_points";
import { isKind } from "../report/held";
import { mayVoid } from "../report/voided";

/** Say whether the entry counts as a failed inspection: said so, or passed with a check not ok. */
export function failed(entry: Entry): boolean {
  if (isKind(entry, "inspection.failed")) return true;
  return isKind(entry, "inspection.passed") && !(entry.data.checks ?? []).every((check) => check.ok);
}

/** Return the entries of one car that no `entry.voided` among them takes back, each once, by id. */
export function standing(entries: Iterable<Entry>, setup: EventSetup): Entry[] {
  const by_id = new Map([...entries].map((entry) => [entry.id, entry]));
  const gone = new Set<string>();
  for (const entry of by_id.values()) {
    if (!isKind(entry, "entry.voided")) continue;
    for (const name of entry.data.voids ?? []) {
      const target = by_id.get(name);
      if (target && mayVoid(target, entry.person, setup)) gone.add(name);
    }
  }
  return [...by_id.values()].filter((entry) => !gone.has(entry.id)).sort((a, b) => byCodePoint(a.id, b.id));
}
