/** The steps from nothing to an event in force, and which of them a set-up has behind it already. */

import { type Book, formRow, isBlank } from "./table";

export const STEPS = [
  "event",
  "cars",
  "people",
  "stages",
  "services",
  "rates",
  "van",
  "agreements",
  "changes",
  "invite",
] as const;
export type Step = (typeof STEPS)[number];

/** Steps that an event can do without. */
export const OPTIONAL: readonly Step[] = ["van", "agreements"];

/** Return whether a step is done. `inForce`: the set-up is in force as it stands; whoever was let in is not known here. */
export function isDone(step: Step, book: Book, inForce: boolean): boolean {
  if (step === "changes") return inForce;
  if (step === "invite") return false;
  if (step === "event") return (formRow(book.tables.event).cells.name ?? "") !== "";
  if (step === "people") return filled(book, "people") > 1;
  return filled(book, step === "rates" ? "operations" : step) > 0;
}

const filled = (book: Book, table: string): number =>
  (book.tables[table]?.rows ?? []).filter((row) => !isBlank(row)).length;

/** Return the step to go on with: the first that is not done and not optional. */
export const nextStep = (book: Book, inForce: boolean): Step =>
  STEPS.find((step) => !OPTIONAL.includes(step) && !isDone(step, book, inForce)) ?? "invite";

/** Return the step after one, or null after the last. */
export const after = (step: Step): Step | null => STEPS[STEPS.indexOf(step) + 1] ?? null;

export const stepNamed = (name: string): Step | null => STEPS.find((step) => step === name) ?? null;
