/** Which entries still count: a mis-tap can be undone by its author or a manager. */

import type { Entry, EventSetup, Kind } from "../kit/api";
import { isKind } from "./local_entry";

const VOIDABLE: ReadonlySet<Kind> = new Set<Kind>([
  "job.started",
  "job.stopped",
  "job.finished",
  "job.deferred",
  "inspection.passed",
  "car.released",
  "task.started",
  "task.finished",
  "briefing.acknowledged",
  "cost.adjusted",
  "charge.decided",
  "charge.added",
  "part.fitted",
  "part.retained",
  "stage.nothing_seen",
  "service.entered",
  "service.left",
  "driver.changed",
  "control.entered",
  "control.left",
  "driver.asked",
  "voice.linked",
]);

/** Say whether an entry is of a kind that can be undone; a report or a failed inspection never is. */
export function isVoidable(entry: Entry): boolean {
  return VOIDABLE.has(entry.kind) && !isFailedPass(entry);
}

/** Say whether an entry says passed and has a check that is false: it failed. A check that was not done is not false. */
export function isFailedPass(entry: Entry): boolean {
  return isKind(entry, "inspection.passed") && (entry.data.checks ?? []).some((check) => check.ok === false);
}

/** Say whether a person may undo an entry: its author, or a manager. */
export function mayVoid(entry: Entry, person: string, setup: EventSetup | null): boolean {
  return isVoidable(entry) && (entry.person === person || isManager(person, setup));
}

/** Return the entries without those that an `entry.voided` of the same event and car takes back. */
export function withoutVoided(entries: Entry[], setup: EventSetup | null): Entry[] {
  const voids = entries.filter((entry) => entry.kind === "entry.voided");
  if (voids.length === 0) return entries;
  return entries.filter((entry) => !voids.some((by) => takesBack(by, entry, setup)));
}

/** Say whether an entry takes another one back. */
export function takesBack(by: Entry, entry: Entry, setup: EventSetup | null): boolean {
  return (
    isKind(by, "entry.voided") &&
    (by.data.voids ?? []).includes(entry.id) &&
    by.event === entry.event &&
    by.car === entry.car &&
    mayVoid(entry, by.person, setup)
  );
}

function isManager(person: string, setup: EventSetup | null): boolean {
  return setup?.people.some((one) => one.person === person && one.roles.includes("manager")) ?? false;
}
