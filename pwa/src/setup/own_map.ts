/** Begins a team's own car map with the one in force. */

import type { CarMap } from "../kit/api";
import { CAR_MAP_FILE, specOf } from "./specs";
import { type Book, type Cells, tableOf } from "./table";

/** Return the book with a car map of its own that says what the map in force says, by the table of keys. */
export function ownMap(book: Book, map: CarMap): Book {
  const put = (table: string, rows: Cells[]) => tableOf(book.tables[table]?.columns ?? [], rows);
  const tables = {
    ...book.tables,
    car_map: put("car_map", [cellsOf("car_map", map)]),
    zones: put("zones", named("zones", map.zones)),
    components: put("components", named("components", map.components)),
    symptoms: put("symptoms", named("symptoms", map.symptoms)),
    knock_on: put(
      "knock_on",
      map.knock_on.map((rule) => cellsOf("knock_on", rule)),
    ),
  };
  return { ...book, tables, present: [...new Set([...book.present, CAR_MAP_FILE])] };
}

const named = (table: string, rows: Record<string, object>): Cells[] =>
  Object.entries(rows).map(([name, row]) => ({ [specOf(table)?.keys[0] ?? ""]: name, ...cellsOf(table, row) }));

function cellsOf(table: string, row: object): Cells {
  const said = new Map<string, unknown>(Object.entries(row));
  const cells = (specOf(table)?.columns ?? []).map(({ column }) => [column, cellOf(said.get(column))] as const);
  return Object.fromEntries(cells.filter(([, cell]) => cell !== ""));
}

function cellOf(value: unknown): string {
  if (value === null || value === undefined || value === false) return "";
  return Array.isArray(value) ? value.join(";") : String(value);
}
