/** What was touched on the readings screen, and what saving it would write. Pure. */

import type { EventSetup, Entry, ReportBody } from "../../kit/api";
import { prefill } from "../../report/prefill";
import {
  isLevel,
  kindOf,
  lastReading,
  type NewReading,
  newReading,
  type Reading,
  type ReadingKind,
  type ReadingName,
  READINGS,
  steppedValue,
} from "../../report/readings";
import { hasFallen, reportOfFall } from "../../report/reservoir";
import { currentService } from "../../report/service";
import type { Level } from "../../report/walk_list";
import { readings as words } from "../words/readings";

/** What was touched, by reading and place. */
export type Taken = Record<string, number | string>;

export const keyOf = (reading: string, place: string | null): string => `${reading}@${place ?? ""}`;

/** The value that stands at a place: what was touched, else what was read last; null for neither. */
export function valueAt(taken: Taken, readings: Reading[], kind: ReadingKind, place: string | null) {
  const touched = taken[keyOf(kind.reading, place)];
  if (touched !== undefined) return touched;
  const isAdded = kind.input.how === "stepped" && kind.input.added;
  return isAdded ? null : (lastReading(readings, kind.reading, place)?.value ?? null);
}

/** A step up or down from the value that stands there. */
export function stepped(taken: Taken, readings: Reading[], kind: ReadingKind, place: string | null, by: number): Taken {
  if (kind.input.how !== "stepped") return taken;
  const value = valueAt(taken, readings, kind, place);
  return with_(taken, kind, place, steppedValue(kind.input, typeof value === "number" ? value : null, by));
}

/** Say a value; a text that is empty takes the touch back. */
export function with_(taken: Taken, kind: ReadingKind, place: string | null, value: number | string): Taken {
  const { [keyOf(kind.reading, place)]: _, ...others } = taken;
  return value === "" ? others : { ...others, [keyOf(kind.reading, place)]: value };
}

/** All places of a reading read again as they were; what was touched already stays. */
export function asLast(taken: Taken, readings: Reading[], kind: ReadingKind): Taken {
  return kind.places.reduce<Taken>((next, place) => {
    const value = valueAt(next, readings, kind, place);
    return value === null ? next : with_(next, kind, place, value);
  }, taken);
}

/** Return the entries' data for what was touched, in the order of the screen. */
export function newReadings(taken: Taken): NewReading[] {
  return (READINGS as readonly ReadingKind[]).flatMap((kind) =>
    kind.places.flatMap((place) => {
      const value = taken[keyOf(kind.reading, place)];
      return value === undefined ? [] : [newReading(kind, place, typeof value === "string" ? value.trim() : value)];
    }),
  );
}

/** The brake reservoir as it was touched, and as it was read before. */
export function brakeLevels(taken: Taken, readings: Reading[]): { before: Level | null; now: Level } | null {
  const now = taken[keyOf("brake reservoir", placeOf("brake reservoir"))];
  const before = lastReading(readings, "brake reservoir", placeOf("brake reservoir"))?.value;
  return isLevel(now) ? { before: isLevel(before) ? before : null, now } : null;
}

const placeOf = (reading: ReadingName) => kindOf(reading).places[0] ?? null;

/** Return the report that saving files beside the readings, or null. */
export function reportFor(
  taken: Taken,
  readings: Reading[],
  entries: Entry[],
  car: string,
  setup: EventSetup,
  now_ms: number,
): ReportBody | null {
  const levels = brakeLevels(taken, readings);
  if (!levels || !hasFallen(levels.before, levels.now)) return null;
  const { before, now } = levels;
  const service = currentService(entries, car, setup)?.service ?? null;
  const where = service === null ? words.outside : words.inService(service);
  const said = (one: Level) => words.level[one].toLowerCase();
  const note = before === null ? words.lowNote(said(now), where) : words.fellNote(said(before), said(now), where);
  return reportOfFall(prefill(entries, car, setup, now_ms), setup.car_map, note);
}
