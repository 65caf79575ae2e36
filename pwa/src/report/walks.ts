/** The hand-over walks of a car that were signed, as they stand on this phone. */

import type { Agreement, Entry, EntryOf, EventSetup } from "../kit/api";
import { type LocalEntry, isKind } from "./local_entry";
import { byTime } from "./order";
import { reportsOf, type EffectiveReport } from "./effective";

export type SignedWalk = EntryOf<"handover.signed">;

/** Return the signed walks of a car, oldest first, without those that a later one replaces. */
export function walksOf(entries: Entry[], car: string): SignedWalk[] {
  const walks = entries.filter((one) => one.car === car && isKind(one, "handover.signed")) as SignedWalk[];
  const replaced = new Set(walks.flatMap((one) => one.data.replaces ?? []));
  return walks.filter((one) => !replaced.has(one.id)).sort(byTime);
}

/** Return the walk out that a return is compared with: the last one before `before`, or null. */
export function walkOut(walks: SignedWalk[], before: SignedWalk | null = null): SignedWalk | null {
  const end = before === null ? walks.length : walks.indexOf(before);
  return walks.slice(0, end < 0 ? walks.length : end).findLast((one) => one.data.walk === "out") ?? null;
}

/** Return the reports that a walk lists, those withdrawn since left out, in the order of the walk. */
export function marksOf(entries: LocalEntry[], walk: SignedWalk): EffectiveReport[] {
  const reports = new Map(reportsOf(entries, walk.car).map((one) => [one.report, one]));
  return (walk.data.marks ?? []).flatMap((id) => {
    const report = reports.get(id);
    return report && !report.withdrawn ? [report] : [];
  });
}

/** Return the photo of a view on a walk, or null where none was taken. */
export function photoAt(walk: SignedWalk | null, view: string): string | null {
  return walk?.data.photos?.find((one) => one.view === view)?.photo ?? null;
}

/** Return the agreement that is for a car, or null. */
export function agreementFor(setup: EventSetup, car: string): Agreement | null {
  // A set-up that an older server gave, and this phone still holds, lists none.
  return (setup.agreements ?? []).find((one) => one.car === car) ?? null;
}
