/** Which tables a set-up has, in which file each lies, and what their columns hold; `tables.ts` is made by the server's. */

import { TABLES } from "./tables";

/**
 * What a cell holds: text, a number, yes or no, names by semicolons, numbers by semicolons, part*qty by semicolons, a
 * day, or a time of the event's own zone.
 */
export type Kind = "text" | "number" | "flag" | "list" | "numbers" | "quantities" | "day" | "time";

/**
 * `among`: words that it may hold. `from`: table and column whose cells are suggested. `unit`: of its number. `first`:
 * what a team's first event says.
 */
export interface Column {
  column: string;
  kind: Kind;
  among?: readonly string[];
  from?: readonly [table: string, column: string];
  /** Holds whole sentences, and wants the room for them. */
  long?: boolean;
  unit?: string;
  /** It is kept and shown, and nothing follows from it yet. */
  idle?: boolean;
  /** A CSV file has to have this column. */
  needed?: boolean;
  first?: string;
}

/**
 * How it lies in its file: rows of a CSV; TOML's own keys (`top`), one table (`one`), an array of tables (`rows`),
 * tables by name (`named`), or values by name (`values`). A form has one row.
 */
type Shape = "csv" | "top" | "one" | "rows" | "named" | "values";

export interface Spec {
  table: string;
  file: string;
  shape: Shape;
  columns: readonly Column[];
  /** What tells rows apart. */
  keys: readonly string[];
}

export const SPECS = TABLES;
export const CAR_MAP_FILE = "car_map.toml";
export const EVENT_FILE = "event.toml";

/** Return a table's description, or null for a name that is none. */
export const specOf = (table: string): Spec | null => SPECS.find((spec) => spec.table === table) ?? null;

/** Return whether a table has one row and is filled in as a form. */
export const isForm = (spec: Spec): boolean => spec.shape === "top" || spec.shape === "one";

/** Return what a column holds: text where the app does not know the column. */
export const columnOf = (spec: Spec, column: string): Column =>
  spec.columns.find((one) => one.column === column) ?? { column, kind: "text" };

/** Return what tells a row from others, as people read it. */
export const keyOf = (spec: Spec, cells: Record<string, string>): string =>
  spec.keys
    .map((key) => cells[key]?.trim() ?? "")
    .filter(Boolean)
    .join(" ");
