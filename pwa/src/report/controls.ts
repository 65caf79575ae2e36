/** Whether a car stands where nobody may work on it: a control zone, a regroup, parc fermé. */

import type { Entry, EntryOf, EventSetup } from "../kit/api";
import { msOf, officialMs } from "../kit/time";
import { bodyOf } from "./body";
import { ofKind } from "./lists";
import { byTime } from "./order";
import { isVersion } from "./versions";
import { countedOf } from "./counted";

export type Control = EntryOf<"control.entered">["data"]["control"];

/** An entry that brings a car to where nobody may work on it. */
type Into = EntryOf<"control.entered"> | EntryOf<"service.left">;

/** Where it stands, and since when (Unix ms). */
export interface NoWork {
  control: Control;
  since_ms: number;
  /** What brought it there and nothing has ended: each may be named by a `control.left`. */
  open: Into[];
}

/**
 * Return where the car stands if nobody may work on it there, or null.
 *
 * It came into a control, or left a service after which the itinerary has parc fermé. Either counts until a `control.left` names it, or the car is put down as in service or on a
 * stage later: whoever forgets the tap out is not shut out of the next service.
 */
export function noWork(entries: Entry[], car: string, setup: EventSetup | null): NoWork | null {
  const valid = countedOf(entries, car, setup);
  const ended = new Set(ofKind(valid, "control.left").flatMap((entry) => entry.data.ends));
  const open = into(valid, setup).filter((one) => !ended.has(one.id) && !hasGoneOn(one, valid));
  const last = open.sort(byTime).at(-1);
  return last ? { control: controlOf(last), since_ms: sinceOf(last), open } : null;
}

function into(entries: Entry[], setup: EventSetup | null): Into[] {
  const services = setup?.services.filter((one) => one.parc_ferme_after).map((one) => one.service) ?? [];
  const left = ofKind(entries, "service.left").filter((entry) => services.includes(entry.data.service));
  return [...ofKind(entries, "control.entered"), ...left];
}

const controlOf = (entry: Into): Control => (entry.kind === "control.entered" ? entry.data.control : "parc-ferme");

function sinceOf({ at, data }: Into): number {
  return officialMs(data.official_time ?? at, at) ?? msOf(at) ?? 0;
}

function hasGoneOn(control: Into, valid: Entry[]): boolean {
  return valid.some((entry) => byTime(entry, control) > 0 && isElsewhere(entry));
}

function isElsewhere(entry: Entry): boolean {
  if (entry.kind === "service.entered" || entry.kind === "stage.nothing_seen") return true;
  return entry.kind === "report.filed" && isVersion(entry) && bodyOf(entry).where === "stage";
}
