/** What a device's own counter tells: numbers that nobody holds, since a phone was lost, and numbers given twice. */

import type { Entry } from "../kit/api";
import { keptGroups, keptUp } from "../kit/growing";
import { idOf } from "./lists";

/** `person` is who last wrote on the device. */
export interface Gap {
  device: string;
  person: string;
  /** Ascending. What was written after the last number held leaves no trace. */
  missing: number[];
  /** Ascending. Two entries with one number, as from a phone that was copied. */
  twice: number[];
}

/** No phone writes so many: beyond it a number is a fault of its own, not a list to be shown. */
const MOST_MISSING = 1000;

/** Return the gaps among all entries held, of every event, since a device counts through all of them. */
export function gapsOf(entries: Entry[]): Gap[] {
  const gaps = [...byDevice(entries).values()].map(gapIn);
  return gaps.filter((gap) => gap.missing.length + gap.twice.length > 0);
}

const byDevice = keptGroups((entry: Entry) => entry.device, idOf);

/** Of one device: that of the others stays while it writes. */
const gapIn = keptUp((entries: Entry[]): Gap => {
  const held = new Set<number>();
  const twice = new Set<number>();
  for (const { seq } of entries) (held.has(seq) ? twice : held).add(seq);
  const last = entries.reduce((one, other) => (other.seq > one.seq ? other : one));
  const missing: number[] = [];
  for (let seq = 1; seq < last.seq && missing.length < MOST_MISSING; seq++) if (!held.has(seq)) missing.push(seq);
  const { device, person } = last;
  return { device, person, missing, twice: [...twice].sort((one, other) => one - other) };
});
