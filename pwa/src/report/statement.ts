/** What a manager puts down about a bill: what a line is to the agreement, a statement as it went out, what became of it. */

import type { Entry, Statement } from "../kit/api";
import { isKind } from "./local_entry";

export const CHARGES = ["damage", "wear", "misuse", "not-charged"] as const;
export const STANDINGS = ["agreed", "disputed", "withdrawn"] as const;
export type Charge = (typeof CHARGES)[number];
export type LineStanding = (typeof STANDINGS)[number];

export interface ChargeDecision {
  /** Null: only how far parts were used is said, and the agreement decides the rest. */
  charge: Charge | null;
  /** How much of a part's life was used before the hit, in percent. */
  worn: { part: string; used_percent: number }[];
  reason: string;
}

export const OTHER_KINDS = ["fuel", "kit", "cleaning", "lateness", "recovery", "property", "other"] as const;

/** What is charged besides damage, as a manager enters it; money and quantity are decimal text. */
export interface AddedCharge {
  charge: (typeof OTHER_KINDS)[number];
  says: string;
  qty: string;
  price: string;
  reason: string;
}

/** An entry has at most 16 KiB; its other fields and the signature take less than one. */
const MOST_BYTES = 15 * 1024;

/** Return what an issued statement holds of a draft, or null where it is too long for one entry. */
export function contentOf(draft: Statement) {
  const { customer, currency, rates, steps, totals, letter } = draft;
  const other = draft.other?.map(({ entries, photos, standing, ...one }) => one);
  const incidents = draft.incidents.map(({ lines, ...incident }) => ({
    ...incident,
    lines: lines.map(({ entries, photos, photos_before, standing, tag, ...line }) => line),
  }));
  const not_charged = draft.not_charged.map(({ entries, photos, ...line }) => line);
  const content = {
    customer,
    currency,
    rates,
    incidents,
    not_charged,
    steps,
    totals,
    ...(other && { other }),
    ...(letter && { letter }),
  };
  return new TextEncoder().encode(JSON.stringify(content)).length <= MOST_BYTES ? content : null;
}

/** Return the ids of a line's decisions that nothing took over yet. */
export function decisionsOf(line: string, entries: Entry[]): string[] {
  const of_line = entries.filter((entry) => isKind(entry, "charge.decided") && entry.subject === line);
  return untaken(of_line);
}

/** Return the ids of what was entered about a charge besides damage that nothing took over yet. */
export function addedOf(line: string, entries: Entry[]): string[] {
  const about = (entry: Entry) => entry.subject === line || line.endsWith(`/${entry.id}`);
  return untaken(entries.filter((entry) => isKind(entry, "charge.added") && about(entry)));
}

/** Return the ids of what was said of a statement's line that nothing took over yet. */
export function settledOf(statement: string, line: string, entries: Entry[]): string[] {
  const of_line = entries.filter(
    (entry) => isKind(entry, "statement.line_settled") && entry.subject === statement && entry.data.line === line,
  );
  return untaken(of_line);
}

function untaken(entries: Entry[]): string[] {
  const taken = new Set(entries.flatMap((entry) => ("replaces" in entry.data && entry.data.replaces) || []));
  return entries
    .map((entry) => entry.id)
    .filter((id) => !taken.has(id))
    .sort();
}
