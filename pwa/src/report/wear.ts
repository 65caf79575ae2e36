/** Wear of pads and tyres against stage km, and what is no wear. Pure. */

import type { Reading } from "./readings";
import { CORNERS, type Corner } from "./walk_list";

/**
 * What is usual, in mm. Common practice, no source: a team knows its own car, and the scrutineer's limit comes first.
 * `limit`: to be changed at. `usual_per_100km`: on gravel. `part`: of the car map.
 */
export const WEARING = {
  "brake pad": { limit_mm: 3, usual_per_100km: 2.5, part: "brake-pads" },
  tread: { limit_mm: 1.6, usual_per_100km: 2.5, part: "tyre" },
} as const;
export type WearingName = keyof typeof WEARING;

/** A jump is so many times the usual rate, and at least so much. Common practice, no source. */
const JUMP_TIMES = 3;
const JUMP_LEAST_MM = 1;
/** More than the gauge is off: the part is a fresh one. */
const FRESH_MM = 0.4;
/** A rate over less says nothing. */
const LEAST_KM = 5;

/** A depth, and the stage km that the car had done then. */
export interface Point {
  mm: number;
  km: number;
  /** The entry that says it; "" for one that is not saved yet. */
  entry: string;
}

export interface Wear {
  place: Corner;
  mm: number;
  /** mm in 100 stage km since the part was fresh or first read; null where too little is known. */
  per_100km: number | null;
  /** Stage km left to the limit at that rate; null where there is no rate. */
  left_km: number | null;
  below_limit: boolean;
  /** The last reading fell much faster than usual: by how much, over how far. */
  jump: { mm: number; km: number } | null;
}

/** Return the points of one reading at one place since the part there was fresh. */
export function runOf(points: Point[]): Point[] {
  const fresh = points.findLastIndex((point, at) => at > 0 && point.mm > (points[at - 1] as Point).mm + FRESH_MM);
  return fresh < 0 ? points : points.slice(fresh);
}

/** Return the wear at each corner that was read. `points`: by corner, oldest first. */
export function wearOf(reading: WearingName, points: Partial<Record<Corner, Point[]>>): Wear[] {
  return CORNERS.flatMap((place) => {
    const run = runOf(points[place] ?? []);
    return run.length > 0 ? [wearAt(reading, place, run, points)] : [];
  });
}

function wearAt(reading: WearingName, place: Corner, run: Point[], all: Partial<Record<Corner, Point[]>>): Wear {
  const { limit_mm } = WEARING[reading];
  const last = run.at(-1) as Point;
  const jump = jumpOf(reading, place, run, all);
  // A jump is no wear: the rate is that of before it.
  const per_100km = rateOf(jump ? run.slice(0, -1) : run);
  const left = per_100km !== null && per_100km > 0 ? ((last.mm - limit_mm) / per_100km) * 100 : null;
  return {
    place,
    mm: last.mm,
    per_100km,
    left_km: left === null ? null : Math.max(0, left),
    below_limit: last.mm <= limit_mm,
    jump,
  };
}

function rateOf(run: Point[]): number | null {
  const first = run[0];
  const last = run.at(-1);
  if (!first || !last || last.km - first.km < LEAST_KM) return null;
  return (Math.max(0, first.mm - last.mm) / (last.km - first.km)) * 100;
}

function jumpOf(reading: WearingName, place: Corner, run: Point[], all: Partial<Record<Corner, Point[]>>) {
  const [before, last] = run.slice(-2);
  if (!before || !last) return null;
  const mm = before.mm - last.mm;
  const km = Math.max(0, last.km - before.km);
  const usual = usualRate(reading, place, last, all);
  return mm >= JUMP_LEAST_MM && mm > (JUMP_TIMES * usual * Math.max(km, LEAST_KM)) / 100 ? { mm, km } : null;
}

/** The middle of what was seen on this car, the step in question left out; what is usual where that is too little. */
function usualRate(reading: WearingName, place: Corner, last: Point, all: Partial<Record<Corner, Point[]>>): number {
  const rates = CORNERS.flatMap((corner) => {
    const run = runOf(all[corner] ?? []);
    return run.slice(1).flatMap((point, at) => {
      const step = [run[at] as Point, point];
      const rate = corner === place && point === last ? null : rateOf(step);
      return rate === null ? [] : [rate];
    });
  }).sort((a, b) => a - b);
  const least = WEARING[reading].usual_per_100km / 2;
  return rates.length < 2 ? WEARING[reading].usual_per_100km : Math.max(least, rates[rates.length >> 1] as number);
}

/** Return the points of a reading by corner; `km_at`: the stage km that the car had done at a reading. */
export function pointsOf(
  readings: Reading[],
  reading: WearingName,
  km_at: (one: Reading) => number,
): Partial<Record<Corner, Point[]>> {
  const points: Partial<Record<Corner, Point[]>> = {};
  for (const one of readings) {
    const place = CORNERS.find((corner) => corner === one.place);
    if (one.reading !== reading || !place || typeof one.value !== "number") continue;
    points[place] = [...(points[place] ?? []), { mm: one.value, km: km_at(one), entry: one.entry }];
  }
  return points;
}
