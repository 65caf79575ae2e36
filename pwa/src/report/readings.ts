/** The readings that are taken at a service: a closed list of what, in which unit, where; and what was read last. */

import type { DataOf, Entry } from "../kit/api";
import { isKind } from "./local_entry";
import { byTime } from "./order";
import { CORNERS, LEVELS, type Level } from "./walk_list";

export type NewReading = DataOf["reading.taken"];

/** How a reading is put in: stepped, one of the levels, or written. */
export interface Stepped {
  how: "stepped";
  /** Buttons beside the value, in its unit. */
  steps: readonly number[];
  /** What the first tap shows where nothing was read before. Common practice, no source. */
  start: number;
  least: number;
  most: number;
  decimals: 0 | 1 | 2;
  /** A quantity that was added counts for itself: it starts at nothing each time. */
  added?: true;
}
interface Levelled {
  how: "level";
}
interface Written {
  how: "written";
  longest: number;
  /** A whole number: too long a way to step. */
  digits?: true;
}

export interface ReadingKind {
  reading: string;
  unit: string;
  /** Where it is read; [null] for one of the whole car. */
  places: readonly (string | null)[];
  input: Stepped | Levelled | Written;
}

const stepped = (least: number, most: number, start: number, decimals: 0 | 1 | 2, ...steps: number[]): Stepped => ({
  how: "stepped",
  least,
  most,
  start,
  decimals,
  steps,
});
const added = (...steps: number[]): Stepped => ({ ...stepped(0, 50, 0, 1, ...steps), added: true });
const level: Levelled = { how: "level" };
const CAR = [null];
const ENGINE_BAY = ["engine-bay"];

/** The words are those of `reading.taken` entries: a new word is a new reading. Starting values are common practice. */
export const READINGS = [
  { reading: "brake reservoir", unit: "", places: ENGINE_BAY, input: level },
  { reading: "clutch reservoir", unit: "", places: ENGINE_BAY, input: level },
  { reading: "tyre pressure", unit: "bar", places: CORNERS, input: stepped(0.5, 5, 2, 2, -0.1, -0.05, 0.05, 0.1) },
  { reading: "brake pad", unit: "mm", places: CORNERS, input: stepped(0, 30, 10, 1, -1, -0.5, 0.5, 1) },
  { reading: "tread", unit: "mm", places: CORNERS, input: stepped(0, 20, 6, 1, -1, -0.5, 0.5, 1) },
  { reading: "tyre number", unit: "", places: CORNERS, input: { how: "written", longest: 20 } },
  { reading: "damper clicks", unit: "clicks", places: CORNERS, input: stepped(0, 60, 12, 0, -1, 1) },
  { reading: "ride height", unit: "mm", places: CORNERS, input: stepped(20, 400, 150, 0, -5, -1, 1, 5) },
  { reading: "front toe", unit: "mm", places: CAR, input: stepped(-20, 20, 0, 1, -0.5, -0.1, 0.1, 0.5) },
  { reading: "rear toe", unit: "mm", places: CAR, input: stepped(-20, 20, 0, 1, -0.5, -0.1, 0.1, 0.5) },
  { reading: "peak water temperature", unit: "°C", places: CAR, input: stepped(0, 160, 90, 0, -5, -1, 1, 5) },
  { reading: "peak oil temperature", unit: "°C", places: CAR, input: stepped(0, 200, 110, 0, -5, -1, 1, 5) },
  { reading: "lowest oil pressure", unit: "bar", places: CAR, input: stepped(0, 12, 4, 1, -0.5, -0.1, 0.1, 0.5) },
  { reading: "oil added", unit: "l", places: ENGINE_BAY, input: added(-0.5, -0.1, 0.1, 0.5) },
  { reading: "coolant added", unit: "l", places: ENGINE_BAY, input: added(-0.5, -0.1, 0.1, 0.5) },
  { reading: "brake fluid added", unit: "l", places: ENGINE_BAY, input: added(-0.1, 0.1) },
  { reading: "odometer", unit: "km", places: CAR, input: { how: "written", longest: 7, digits: true } },
] as const satisfies readonly ReadingKind[];
export type ReadingName = (typeof READINGS)[number]["reading"];

/** Return one of the list. */
export function kindOf(reading: ReadingName): ReadingKind {
  return READINGS.find((one) => one.reading === reading) as ReadingKind;
}

/** What was read, from an entry of its own or from a hand-over walk. */
export interface Reading {
  reading: string;
  place: string | null;
  value: number | string;
  at: string;
  person: string;
  /** The entry that says it. */
  entry: string;
}

/** Return what was read of a car, oldest first; a walk's figures are readings, too. */
export function readingsOf(entries: Entry[], car: string): Reading[] {
  return entries
    .filter((one) => one.car === car)
    .sort(byTime)
    .flatMap((entry) => [...taken(entry), ...walked(entry)]);
}

function taken(entry: Entry): Reading[] {
  if (!isKind(entry, "reading.taken")) return [];
  const { reading, value, place = null } = entry.data;
  const known = (READINGS as readonly ReadingKind[]).find((one) => one.reading === reading);
  const number = Number(value);
  const isNumber = known?.input.how === "stepped" && Number.isFinite(number) && value !== "";
  return [said(entry, reading, place, isNumber ? number : value)];
}

function walked(entry: Entry): Reading[] {
  if (!isKind(entry, "handover.signed")) return [];
  const { odometer_km, tread = [], pads = [], fluids = [] } = entry.data;
  const brake = fluids.find((one) => one.fluid === "brake-fluid");
  const clutch = fluids.find((one) => one.fluid === "clutch-fluid");
  return [
    ...(odometer_km == null ? [] : [said(entry, "odometer", null, Number(odometer_km))]),
    ...tread.map(({ place, mm }) => said(entry, "tread", place, Number(mm))),
    ...pads.map(({ place, mm }) => said(entry, "brake pad", place, Number(mm))),
    ...(brake ? [said(entry, "brake reservoir", "engine-bay", brake.level)] : []),
    ...(clutch ? [said(entry, "clutch reservoir", "engine-bay", clutch.level)] : []),
  ];
}

function said(entry: Entry, reading: string, place: string | null, value: number | string): Reading {
  return { reading, place, value, at: entry.at, person: entry.person, entry: entry.id };
}

/** Return the last reading of a kind at a place, or null. */
export function lastReading(readings: Reading[], reading: string, place: string | null): Reading | null {
  return readings.findLast((one) => one.reading === reading && one.place === place) ?? null;
}

/** Return the value after a step; the first step of a value that nobody read shows where it starts. */
export function steppedValue(kind: Stepped, value: number | null, by: number): number {
  const next = value === null && !kind.added ? kind.start : (value ?? 0) + by;
  const rounded = Math.round(next * 100) / 100;
  return Math.min(kind.most, Math.max(kind.least, rounded));
}

/** Say whether a text is a level of a reservoir. */
export const isLevel = (value: unknown): value is Level => (LEVELS as readonly unknown[]).includes(value);

/** Return the entry's data for a value that was touched. */
export function newReading(kind: ReadingKind, place: string | null, value: number | string): NewReading {
  return {
    reading: kind.reading,
    value,
    ...(kind.unit === "" ? {} : { unit: kind.unit }),
    ...(place === null ? {} : { place }),
  };
}
