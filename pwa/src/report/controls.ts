/** Whether a car stands where nobody may work on it: a control zone, a regroup, parc fermé. */

import type { Entry, EntryOf, EventSetup } from "../kit/api";
import { msOf, officialMs } from "../kit/time";
import { bodyOf } from "./body";
import { isKind } from "./held";
import { byTime } from "./order";
import { isVersion } from "./versions";
import { withoutVoided } from "./voided";

export type Control = EntryOf<"control.entered">["data"]["control"];

/** Where it stands, and since when (Unix ms). */
export interface NoWork {
  control: Control;
  since_ms: number;
  /** Every `control.entered` that nothing has ended. */
  open: EntryOf<"control.entered">[];
}

/**
 * Return where the car stands if nobody may work on it there, or null.
 *
 * A control that was entered counts until a `control.left` names it, or the car is put down as in service or on a
 * stage later: whoever forgets the tap out is not shut out of the next service.
 */
export function noWork(entries: Entry[], car: string, setup: EventSetup | null): NoWork | null {
  const valid = withoutVoided(
    entries.filter((entry) => entry.car === car),
    setup,
  );
  const ended = new Set(valid.flatMap((entry) => (entry.kind === "control.left" ? entry.data.ends : [])));
  const open = entered(valid).filter((one) => !ended.has(one.id) && !hasGoneOn(one, valid));
  const last = open.sort(byTime).at(-1);
  return last ? { control: last.data.control, since_ms: sinceOf(last), open } : null;
}

const entered = (entries: Entry[]) =>
  entries.filter((entry) => isKind(entry, "control.entered")) as EntryOf<"control.entered">[];

function sinceOf({ at, data }: EntryOf<"control.entered">): number {
  return officialMs(data.official_time ?? at, at) ?? msOf(at) ?? 0;
}

function hasGoneOn(control: EntryOf<"control.entered">, valid: Entry[]): boolean {
  return valid.some((entry) => byTime(entry, control) > 0 && isElsewhere(entry));
}

function isElsewhere(entry: Entry): boolean {
  if (entry.kind === "service.entered" || entry.kind === "stage.nothing_seen") return true;
  return entry.kind === "report.filed" && isVersion(entry) && bodyOf(entry).where === "stage";
}
