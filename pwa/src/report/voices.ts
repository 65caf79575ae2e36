/** The voice notes of reports and jobs. Pure. */

import type { Entry, EntryOf, EventSetup, Job } from "../kit/api";
import { type LocalEntry, isKind, type Sending } from "./local_entry";
import { entriesOf, ofKind } from "./lists";
import { byTime } from "./order";
import { mayVoid } from "./voided";
import { countedOf } from "./counted";

export interface Voice {
  entry: EntryOf<"voice.linked">;
  sending: Sending;
  /** Whether the person who looks may take it back: who said it, or a manager. */
  may_undo: boolean;
}

/** Return what was said about a job and about the reports behind it. */
export const ofJob = (voices: ReadonlyMap<string, Voice[]>, job: Job): Voice[] =>
  [job.job, ...job.reports].flatMap((subject) => voices.get(subject) ?? []);

/** Return the notes of one car that nobody took back, by what they are about, each oldest first; `person` looks at them. */
export function voicesBySubject(
  held: LocalEntry[],
  car: string,
  setup: EventSetup | null,
  person = "",
): Map<string, Voice[]> {
  const found = new Map<string, Voice[]>();
  const standing = new Set<Entry>(ofKind(countedOf(entriesOf(held), car, setup), "voice.linked"));
  if (standing.size === 0) return found;
  const spoken = held.filter(({ entry }) => standing.has(entry));
  for (const { entry, sending } of spoken.sort((a, b) => byTime(a.entry, b.entry))) {
    if (!isKind(entry, "voice.linked") || !entry.subject) continue;
    const voice = { entry, sending, may_undo: mayVoid(entry, person, setup) };
    found.set(entry.subject, [...(found.get(entry.subject) ?? []), voice]);
  }
  return found;
}
