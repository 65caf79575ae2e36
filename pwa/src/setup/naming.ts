/** What the app adds to a row while it is typed, so that less has to be: a person's id, a time's day. */

import { columnOf, type Spec } from "./specs";
import { type Cells, type Row, type Table, withCell } from "./table";
import { dayOf } from "./times";

/** Return the table with a cell set, and beside it what follows from it where nothing stands there yet. */
export function withTyped(table: Table, spec: Spec, id: number, column: string, text: string): Table {
  const isClock = columnOf(spec, column).kind === "time" && /^\d{1,2}:\d\d$/.test(text);
  const set = withCell(table, id, column, isClock ? withDay(table, id, column, text) : text);
  if (spec.table !== "people" || column !== "name") return set;
  const row = set.rows.find((one) => one.id === id);
  return !row || (row.cells.person ?? "").trim() ? set : withCell(set, id, "person", personId(text, set.rows));
}

/** A clock alone is of the day of the row above it that has one. */
function withDay(table: Table, id: number, column: string, clock: string): string {
  const at = table.rows.findIndex((row) => row.id === id);
  const days = table.rows.slice(0, at).map((row) => dayOf(row.cells[column] ?? ""));
  const day = days.filter((one) => one !== null).at(-1);
  return day ? `${day} ${clock.padStart(5, "0")}` : clock;
}

/** Return an id that nobody has: "p-" and the first name in small letters; "" for a name without letters. */
function personId(name: string, rows: Row[]): string {
  const [first = ""] = plainWords(name);
  if (!first) return "";
  const taken = new Set(rows.map(({ cells }: { cells: Cells }) => cells.person));
  let made = `p-${first}`;
  for (let count = 2; taken.has(made); count++) made = `p-${first}-${count}`;
  return made;
}

const plainWords = (text: string): string[] =>
  text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter(Boolean);
