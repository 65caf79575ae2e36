/** What this phone's entries say of one job: who works on it, who repaired it, what can be undone. Pure. */

import type { Entry, EntryOf, EventSetup } from "../../kit/api";
import { isKind } from "../../report/local_entry";
import { byTime } from "../../report/order";
import { countedOf } from "../../report/counted";
import { isVoidable } from "../../report/voided";

/** The entries of a car that count, oldest first. */
export const counted = (entries: Entry[], car: string, setup: EventSetup): Entry[] =>
  [...countedOf(entries, car, setup)].sort(byTime);

/** Starts on the job that nothing has ended. */
export function startsOn(valid: Entry[], job: string): EntryOf<"job.started">[] {
  const ended = new Set(
    valid.flatMap((entry) => (isKind(entry, "job.stopped", "job.finished") ? (entry.data.ends ?? []) : [])),
  );
  return valid.filter(
    (entry): entry is EntryOf<"job.started"> =>
      isKind(entry, "job.started") && entry.subject === job && !ended.has(entry.id),
  );
}

/** The broken parts of a job that are kept, oldest first. */
export const keptOf = (valid: Entry[], job: string): EntryOf<"part.retained">[] =>
  valid.filter((entry): entry is EntryOf<"part.retained"> => isKind(entry, "part.retained") && entry.subject === job);

/** The parts that repairs of a job took, each once: what broke is one of them. */
export const partsFitted = (valid: Entry[], job: string): string[] => [
  ...new Set(
    valid.flatMap((entry) =>
      isKind(entry, "job.finished") && entry.subject === job ? (entry.data.parts ?? []).map((one) => one.part) : [],
    ),
  ),
];

/** The person's own last action on the job, if a mis-tap on it can be undone; a kept part has an undo of its own. */
export function lastOwn(valid: Entry[], job: string, person: string): Entry | null {
  const own = valid.filter(
    (entry) => entry.subject === job && entry.person === person && isVoidable(entry) && !isKind(entry, "part.retained"),
  );
  return own.at(-1) ?? null;
}
