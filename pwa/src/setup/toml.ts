/** TOML files as tables and back. Unknown keys stay, as TOML, beside the row or the file that has them. */

import { parse, stringify, TomlDate } from "smol-toml";
import { columnOf, type Spec } from "./specs";
import { isBlank, type Row, type Table } from "./table";
import { cellOf, tomlValue } from "./values";

type Toml = Record<string, unknown>;

/** Return the tables of a TOML file, and what none of them shows. Errors: TomlError. */
export function readToml(
  text: string,
  specs: Spec[],
  timezone: string,
): { tables: Record<string, Table>; rest: string } {
  const root = parse(text) as Toml;
  const tables: Record<string, Table> = {};
  // A file's own keys last, so that what the tables take is gone from it.
  for (const spec of specs.toSorted((a, b) => Number(a.shape === "top") - Number(b.shape === "top"))) {
    tables[spec.table] = tableFrom(spec, root, timezone);
  }
  return { tables, rest: restOf(root) };
}

/** Return the time zone that an event file names. */
export function timezoneOf(text: string): string {
  const { timezone } = parse(text) as Toml;
  return typeof timezone === "string" ? timezone : "UTC";
}

function tableFrom(spec: Spec, root: Toml, timezone: string): Table {
  const columns = spec.columns.map((one) => one.column);
  const row = (id: number, from: Toml, more: Toml = {}) => rowFrom(spec, id, from, more, timezone);
  if (spec.shape === "top") return { columns, rows: [taken(spec, root, timezone)] };
  const part = root[spec.table];
  if (spec.shape === "rows") {
    if (!Array.isArray(part) || !part.every(isTable)) return { columns, rows: [] };
    delete root[spec.table];
    return { columns, rows: part.map((one, id) => row(id, one)) };
  }
  if (!isTable(part)) return { columns, rows: spec.shape === "one" ? [{ id: 0, cells: {} }] : [] };
  delete root[spec.table];
  if (spec.shape === "one") return { columns, rows: [row(0, part)] };
  const key = columns[0] ?? "";
  const value = columns[1] ?? "";
  const inner = (one: unknown) => (spec.shape === "values" ? { [value]: one } : one);
  const isRow = ([name, one]: [string, unknown]) => name === name.trim() && isTable(inner(one));
  const entries = Object.entries(part);
  const left = entries.filter((entry) => !isRow(entry));
  if (left.length > 0) root[spec.table] = Object.fromEntries(left);
  const rows = entries.filter(isRow).map(([name, one], id) => row(id, inner(one) as Toml, { [key]: name }));
  return { columns, rows };
}

/** Takes the file's own keys out of it. */
function taken(spec: Spec, root: Toml, timezone: string): Row {
  const cells: Record<string, string> = {};
  for (const { column, kind } of spec.columns) {
    const cell = column in root ? cellOf(kind, root[column], timezone) : null;
    if (cell === null) continue;
    cells[column] = cell;
    delete root[column];
  }
  return { id: 0, cells };
}

function rowFrom(spec: Spec, id: number, from: Toml, more: Toml, timezone: string): Row {
  const cells: Record<string, string> = {};
  const rest: Toml = {};
  for (const [name, value] of Object.entries({ ...more, ...from })) {
    const known = spec.columns.find((one) => one.column === name);
    const cell = known ? cellOf(known.kind, value, timezone) : null;
    if (cell === null) rest[name] = value;
    else cells[name] = cell;
  }
  const left = restOf(rest);
  return left ? { id, cells, rest: left } : { id, cells };
}

const restOf = (rest: Toml): string => (Object.keys(rest).length > 0 ? stringify(rest) : "");

const isTable = (value: unknown): value is Toml =>
  typeof value === "object" && value !== null && !Array.isArray(value) && !(value instanceof TomlDate);

/** A TOML file, and the ids of the rows that stand in it, by table, in its order. */
export interface WrittenToml {
  text: string;
  ids: Record<string, number[]>;
}

/** Return tables as a TOML file; rows that say nothing are left out. */
export function writeToml(tables: Record<string, Table>, rest: string, specs: Spec[], timezone: string): WrittenToml {
  const root: Toml = {};
  const ids: Record<string, number[]> = {};
  for (const spec of specs) {
    const rows = (tables[spec.table]?.rows ?? []).filter((row) => !isBlank(row));
    ids[spec.table] = rows.map((row) => row.id);
    put(spec, root, rows, timezone);
  }
  return { text: stringify(merged(root, rest ? (parse(rest) as Toml) : {})), ids };
}

function put(spec: Spec, root: Toml, rows: Row[], timezone: string): void {
  const of = (row: Row) => ({ ...(row.rest ? (parse(row.rest) as Toml) : {}), ...valuesOf(spec, row, timezone) });
  if (spec.shape === "rows") {
    if (rows.length > 0) root[spec.table] = rows.map(of);
    return;
  }
  if (rows.length === 0) return;
  const only = rows[0];
  if (spec.shape === "top" && only) Object.assign(root, of(only));
  else if (spec.shape === "one" && only) root[spec.table] = of(only);
  else root[spec.table] = Object.fromEntries(rows.map((row) => named(spec, of(row))));
}

function named(spec: Spec, { ...row }: Toml): [string, unknown] {
  const [key = "", value = ""] = spec.columns.map((one) => one.column);
  const name = String(row[key] ?? "");
  delete row[key];
  if (spec.shape === "named") return [name, row];
  return [name, row[value] ?? []];
}

function valuesOf(spec: Spec, row: Row, timezone: string): Toml {
  const filled = Object.entries(row.cells).filter(([, cell]) => cell.trim() !== "");
  return Object.fromEntries(
    filled.map(([column, cell]) => [column, tomlValue(columnOf(spec, column).kind, cell, timezone)]),
  );
}

/** What no table shows comes back: into a table by name where it was one. */
function merged(root: Toml, rest: Toml): Toml {
  const more = Object.entries(rest).map(([name, value]) => {
    const here = root[name];
    return [name, isTable(here) && isTable(value) ? { ...value, ...here } : (here ?? value)];
  });
  return { ...root, ...Object.fromEntries(more) };
}
