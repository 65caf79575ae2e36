/** Where the stages stand along the itinerary, in rows as wide as the screen: widths by km, heights by money. Pure. */

import type { Service, Stage } from "../../kit/api";
import { setApart } from "../../kit/language";

/** Amounts of a stage as decimal text; `stage` null: of no stage. */
export interface StageMoney {
  stage: string | null;
  estimate: string;
  actual: string;
}

export interface Slot extends StageMoney {
  km: number | null;
  x: number;
  width: number;
  /** Share of the highest column, 0 to 1. */
  estimate_share: number;
  actual_share: number;
}

/** A service, between two stages or before the first. */
interface ServiceMark {
  service: string;
  x: number;
}

export interface Row {
  slots: Slot[];
  services: ServiceMark[];
}

/** Room for the numbers under a stage; a shorter stage is drawn as wide as this. */
export const LEAST = 44;
const NONE_WIDTH = 62;
/** Room for a service's mark before a stage, and at both ends of a row. */
const GAP = 14;

/**
 * Return the rows of the drawing, each `width` wide at most.
 *
 * Every stage of the itinerary is there, also one without money; stages that only the money names come after them, the
 * money of no stage last. As few rows as give most stages a width by their km.
 */
export function itineraryOf(stages: Stage[], services: Service[], money: StageMoney[], width: number): Row[] {
  const slots = slotsOf(stages, money);
  if (slots.length === 0) return [];
  const room = width - GAP;
  for (let rows = 1; rows <= slots.length; rows++) {
    const made = widest(slots, services, room, rows);
    if (made && (rows >= ENOUGH_ROWS || isByKm(made))) return made;
  }
  return drawn(slots, services, room, 0);
}

/** From so many rows on, short stages are drawn wider than their km rather than in yet another row. */
const ENOUGH_ROWS = 4;

const isByKm = (rows: Row[]): boolean => {
  const widths = rows.flatMap((row) => row.slots).filter((slot) => slot.km !== null);
  return widths.filter((slot) => slot.width <= LEAST).length * 3 <= widths.length;
};

/** The widest scale that `most` rows hold, by halving; null where not even the least widths fit in them. */
function widest(slots: Slot[], services: Service[], room: number, most: number): Row[] | null {
  if (drawn(slots, services, room, 0).length > most) return null;
  let [fits, fails] = [0, room];
  for (let step = 0; step < 24; step++) {
    const per_km = (fits + fails) / 2;
    if (drawn(slots, services, room, per_km).length <= most) fits = per_km;
    else fails = per_km;
  }
  return drawn(slots, services, room, fits);
}

const drawn = (slots: Slot[], services: Service[], room: number, per_km: number): Row[] =>
  inRows(
    slots.map((slot) => ({ ...slot, width: widthOf(slot.km, per_km, room - GAP) })),
    services,
    room,
  );

function slotsOf(stages: Stage[], money: StageMoney[]): Slot[] {
  const of = new Map(money.map((row) => [row.stage, row]));
  const known = new Set<string | null>(stages.map((one) => one.stage));
  const nothing = { estimate: "0", actual: "0" };
  const rows = [
    ...stages.map(({ stage, km }) => ({ ...(of.get(stage) ?? nothing), stage, km })),
    ...money.filter((row) => row.stage !== null && !known.has(row.stage)).map((row) => ({ ...row, km: null })),
    ...money.filter((row) => row.stage === null).map((row) => ({ ...row, km: null })),
  ];
  const highest = Math.max(...rows.flatMap((row) => [heightOf(row.estimate), heightOf(row.actual)]), 1e-9);
  return rows.map(({ stage, km, estimate, actual }) => ({
    stage,
    km,
    estimate,
    actual,
    x: 0,
    width: 0,
    estimate_share: heightOf(estimate) / highest,
    actual_share: heightOf(actual) / highest,
  }));
}

// For drawing only, never for adding; what is below nothing has no height, the table says it.
const heightOf = (amount: string): number => Math.max(0, Number(amount) || 0);

const widthOf = (km: number | null, per_km: number, most: number): number =>
  km === null ? NONE_WIDTH : Math.min(most, Math.max(LEAST, km * per_km));

function inRows(slots: Slot[], services: Service[], room: number): Row[] {
  const rows: Row[] = [];
  let row: Row = { slots: [], services: marksAfter("", services, GAP / 2) };
  let x = GAP;
  for (const slot of slots) {
    if (row.slots.length > 0 && x + slot.width > room) {
      rows.push(row);
      row = { slots: [], services: [] };
      x = GAP;
    }
    row.slots.push({ ...slot, x });
    x += slot.width + GAP;
    if (slot.stage !== null) row.services.push(...marksAfter(slot.stage, services, x - GAP / 2));
  }
  return [...rows, row];
}

const marksAfter = (stage: string, services: Service[], x: number): ServiceMark[] => {
  const here = services.filter((one) => one.after === stage).map((one) => one.service);
  return here.length > 0 ? [{ service: here.join(" "), x }] : [];
};

/** An amount in whole units, as it stands in a drawing: "1,085", "−54". The table has the cents. */
export function wholeUnits(amount: string): string {
  const rounded = Math.round(Math.abs(Number(amount) || 0));
  const text = setApart(String(rounded));
  return Number(amount) < 0 && rounded > 0 ? `−${text}` : text;
}
