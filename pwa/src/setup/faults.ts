/** Finds the cell that a fault of the server's is in. */

import { taking } from "../kit/taking";
import type { Places } from "./files";
import { SPECS, type Spec } from "./specs";
import type { Book, Row, Table } from "./table";

/** As problem details name it; `index`: which table of its header in a TOML file. */
export interface ServerFault {
  file: string;
  row: number;
  column: string;
  what: string;
  index?: number;
}

/** A fault at its place: `id` null where no row of a table is meant, `column` "" for the whole row. `cell`: as it read. */
export interface Fault {
  table: string | null;
  id: number | null;
  column: string;
  what: string;
  file: string;
  cell: string;
}

/** Return faults at their cells. */
export function located(faults: ServerFault[], book: Book, places: Places): Fault[] {
  return faults.map((fault) => {
    const place = placeOf(fault, book, places);
    const row = place && book.tables[place.table]?.rows.find((one) => one.id === place.id);
    const cell = row && place ? (row.cells[place.column] ?? "") : "";
    return { table: null, id: null, column: "", ...place, what: fault.what, file: fault.file, cell };
  });
}

type Place = Pick<Fault, "column" | "id"> & { table: string };

function placeOf(fault: ServerFault, book: Book, places: Places): Place | null {
  const specs = SPECS.filter((spec) => spec.file === fault.file);
  const csv = specs.find((spec) => spec.shape === "csv");
  if (csv) {
    return { table: csv.table, id: places.lines[csv.file]?.get(fault.row) ?? null, column: fault.column };
  }
  const found = specs.map((spec) => inToml(spec, fault, book, places)).filter((one) => one !== null);
  // A name may hold dots: the longest that fits is meant.
  return found.toSorted((a, b) => b.fits - a.fits)[0] ?? null;
}

function inToml(spec: Spec, fault: ServerFault, book: Book, places: Places): (Place & { fits: number }) | null {
  const known = (column: string) => (spec.columns.some((one) => one.column === column) ? column : "");
  if (spec.shape === "top") return known(fault.column) ? { ...form(spec, fault.column), fits: 0 } : null;
  const head = `${spec.table}.`;
  if (!fault.column.startsWith(head)) return null;
  const tail = fault.column.slice(head.length);
  const fits = head.length;
  if (spec.shape === "one") return { ...form(spec, known(tail)), fits };
  if (spec.shape === "rows") {
    const id = places.ids[spec.table]?.[fault.index ?? -1] ?? null;
    return { table: spec.table, id, column: known(tail), fits };
  }
  return byName(spec, tail, book.tables[spec.table], fits, known);
}

const form = (spec: Spec, column: string): Place => ({ table: spec.table, id: 0, column });

function byName(
  spec: Spec,
  tail: string,
  table: Table | undefined,
  fits: number,
  known: (column: string) => string,
): (Place & { fits: number }) | null {
  const [key = "", value = ""] = spec.columns.map((one) => one.column);
  const isMeant = (name: string) => (spec.shape === "values" ? tail === name : tail.startsWith(`${name}.`));
  const named = (table?.rows ?? []).filter((row) => isMeant(row.cells[key] ?? ""));
  const row = named.toSorted((a, b) => (b.cells[key] ?? "").length - (a.cells[key] ?? "").length)[0];
  if (!row) return { table: spec.table, id: null, column: "", fits };
  const name = row.cells[key] ?? "";
  // A fault of the name itself (a slash in it) has the name for its key.
  const column = spec.shape === "values" ? value : known(tail.slice(name.length + 1)) || key;
  return { table: spec.table, id: row.id, column, fits: fits + name.length };
}

/** Return the fault of a cell that still reads as it did, or null. */
export function faultAt(faults: Fault[], table: string, row: Row, column: string): Fault | null {
  const isHere = (one: Fault) => one.table === table && one.id === row.id && one.column === column;
  return faults.find((one) => isHere(one) && one.cell === (row.cells[column] ?? "")) ?? null;
}

/** Return the faults of the book as it is now: those of cells that changed or rows that went are no more. */
export function standing(faults: Fault[], book: Book): Fault[] {
  return faults.filter((one) => {
    if (one.table === null || one.id === null) return true;
    const row = book.tables[one.table]?.rows.find((other) => other.id === one.id);
    return row !== undefined && (one.column === "" || (row.cells[one.column] ?? "") === one.cell);
  });
}

/** Return what a file cannot hold: two rows of one name where names are keys, or a row without a name. */
export function unwritable(book: Book): Fault[] {
  return SPECS.filter((spec) => spec.shape === "named" || spec.shape === "values").flatMap((spec) =>
    unnamed(spec, book.tables[spec.table]),
  );
}

function unnamed(spec: Spec, table: Table | undefined): Fault[] {
  const column = spec.keys[0] ?? "";
  const seen = new Set<string>();
  return (table?.rows ?? []).flatMap((row) => {
    const cell = row.cells[column] ?? "";
    const isFilled = Object.values(row.cells).some((one) => one.trim() !== "");
    const what = cell.trim() === "" ? (isFilled ? taking.unnamed : null) : seen.has(cell) ? taking.twice(cell) : null;
    seen.add(cell);
    return what ? [{ table: spec.table, id: row.id, column, what, file: spec.file, cell }] : [];
  });
}
