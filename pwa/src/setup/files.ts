/** The files of a set-up as one book of tables, and the book as files with the place of each row in them. */

import { breaksIn, delimited, linesOf } from "./delimited";
import { columnOf, EVENT_FILE, SPECS, type Spec } from "./specs";
import { type Book, type Cells, formRow, isBlank, type Row, type Table, tableOf } from "./table";
import { readToml, timezoneOf, writeToml } from "./toml";

/** Text by file name, as the event folder has it. */
export type Files = Record<string, string>;

/** A TOML file as cells, which the server writes: `base` is the text that was edited, `rest` what no table shows of it. */
export interface CellFile {
  base: string;
  tables: Record<string, { cells: Cells; rest?: string }[]>;
  rest: string;
}

/** What the phone sends of a set-up: all files as text, and the TOML files that it changed as cells, too. */
export interface Sent {
  files: Files;
  cells: Record<string, CellFile>;
}

/** Where rows lie: of a CSV by the line that they end on, of TOML by table in their order. */
export interface Places {
  lines: Record<string, Map<number, number>>;
  ids: Record<string, number[]>;
}

const tomlSpecs = (file: string): Spec[] => SPECS.filter((spec) => spec.file === file && spec.shape !== "csv");
const TOML_FILES = [...new Set(SPECS.filter((spec) => spec.shape !== "csv").map((spec) => spec.file))];
const CSV_SPECS = SPECS.filter((spec) => spec.shape === "csv");

/** Read files. Errors: TomlError for a TOML file that is none. */
export function bookOf(files: Files): Book {
  const book = emptyBook();
  const timezone = files[EVENT_FILE] === undefined ? "UTC" : timezoneOf(files[EVENT_FILE]);
  for (const [file, text] of Object.entries(files)) {
    const csv = CSV_SPECS.find((spec) => spec.file === file);
    book.present.push(file);
    if (csv) book.tables[csv.table] = csvTable(text, csv);
    else if (TOML_FILES.includes(file)) {
      const read = readToml(text, tomlSpecs(file), timezone);
      Object.assign(book.tables, read.tables);
      if (read.rest) book.rest[file] = read.rest;
    } else book.rest[file] = text;
  }
  return book;
}

/** Return a book without a file: every table is there and empty. */
export function emptyBook(): Book {
  const empty = (spec: Spec) =>
    tableOf(
      spec.columns.map((one) => one.column),
      [],
    );
  return { tables: Object.fromEntries(SPECS.map((spec) => [spec.table, empty(spec)])), rest: {}, present: [] };
}

/** Read a CSV file as a table; columns that it lacks come last, those that are not known stay. */
export function csvTable(text: string, spec: Spec, delimiter = ","): Table {
  const [head, ...lines] = linesOf(text, delimiter);
  const columns = (head?.cells ?? []).map((cell) => cell.trim());
  const rows = lines.map(({ cells }): Cells => {
    const filled = columns.map((column, at) => [column, (cells[at] ?? "").trim()] as const);
    return Object.fromEntries(filled.filter(([column, cell]) => column !== "" && cell !== ""));
  });
  const more = spec.columns.map((one) => one.column).filter((column) => !columns.includes(column));
  return withoutBlanks(tableOf([...new Set([...columns.filter(Boolean), ...more])], rows));
}

const withoutBlanks = (table: Table): Table => ({ ...table, rows: table.rows.filter((row) => !isBlank(row)) });

/** Return the time zone that a book's event has. */
const zoneOf = (book: Book): string => formRow(book.tables.event).cells.timezone || "UTC";

/** Files and what was read from them. */
export interface Source {
  files: Files;
  book: Book;
}

/**
 * Return a book as files, and where its rows lie in them.
 *
 * A file of `source` that would say the same stays byte for byte: its comments too, and the rate table's version.
 */
export function filesOf(book: Book, source: Source | null = null): { files: Files; places: Places } {
  const places: Places = { lines: {}, ids: {} };
  const files: Files = {};
  for (const file of TOML_FILES) {
    const specs = tomlSpecs(file);
    const rest = book.rest[file] ?? "";
    const isFilled = specs.some((spec) => filledRows(book, spec).length > 0);
    if (!isFilled && !rest && !book.present.includes(file)) continue;
    const written = writeToml(book.tables, rest, specs, zoneOf(book));
    files[file] = asItWas(file, book, source) ?? written.text;
    Object.assign(places.ids, written.ids);
  }
  for (const spec of CSV_SPECS) {
    const table = book.tables[spec.table];
    if (!table || (!book.present.includes(spec.file) && table.rows.every(isBlank))) continue;
    const same = asItWas(spec.file, book, source);
    const { text, lines } = csvOf(table, spec);
    files[spec.file] = same ?? text;
    places.lines[spec.file] = same === null ? lines : linesAsTheyWere(same, filledRows(book, spec));
  }
  const other = Object.entries(book.rest).filter(([file]) => !TOML_FILES.includes(file));
  return { files: { ...Object.fromEntries(other), ...files }, places };
}

const filledRows = (book: Book, spec: Spec): Row[] =>
  (book.tables[spec.table]?.rows ?? []).filter((row) => !isBlank(row));

/**
 * Return a book as it is sent, and where its rows lie in the files that it will be.
 *
 * A TOML file that is changed goes as cells, too, so that the server leaves the comments of what did not change. A
 * server of 0.1 passes over cells and takes the text: without it, a changed car map would be none.
 */
export function sentOf(book: Book, source: Source): { sent: Sent; places: Places } {
  const { files, places } = filesOf(book, source);
  const edited = TOML_FILES.filter((file) => file in files && files[file] !== source.files[file]);
  const cells = edited.map((file) => [file, cellFile(book, file, source.files[file] ?? "")] as const);
  return { sent: { files, cells: Object.fromEntries(cells) }, places };
}

function cellFile(book: Book, file: string, base: string): CellFile {
  const row = ({ cells, rest }: Row) => (rest ? { cells, rest } : { cells });
  const tables = tomlSpecs(file).map((spec) => [spec.table, filledRows(book, spec).map(row)] as const);
  return { base, tables: Object.fromEntries(tables), rest: book.rest[file] ?? "" };
}

function asItWas(file: string, book: Book, source: Source | null): string | null {
  const text = source?.files[file];
  if (!source || text === undefined) return null;
  const specs = SPECS.filter((spec) => spec.file === file);
  const said = (one: Book) =>
    JSON.stringify([
      one.rest[file] ?? "",
      specs.map((spec) => [
        spec.shape === "csv" ? one.tables[spec.table]?.columns : null,
        filledRows(one, spec).map((row) => [saidOf(row.cells), row.rest ?? ""]),
      ]),
    ]);
  return said(book) === said(source.book) ? text : null;
}

const saidOf = (cells: Cells): [string, string][] =>
  Object.entries(cells)
    .filter(([, cell]) => cell.trim() !== "")
    .sort(([a], [b]) => (a < b ? -1 : 1));

function linesAsTheyWere(text: string, rows: Row[]): Map<number, number> {
  const [, ...lines] = linesOf(text, ",").filter((line) => line.cells.some((cell) => cell.trim() !== ""));
  return new Map(rows.map((row, at) => [lines[at]?.line ?? 0, row.id]));
}

/**
 * Return a table as CSV with LF, as it lies in the event folder, and the line that each row ends on. A column that need
 * not be there is left out where no row fills it, so that a file does not grow with what the app comes to know.
 */
export function csvOf(table: Table, spec: Spec): { text: string; lines: Map<number, number> } {
  const rows = table.rows.filter((row) => !isBlank(row));
  const isTold = (column: string) =>
    columnOf(spec, column).needed || rows.some((row) => (row.cells[column] ?? "").trim() !== "");
  const columns = table.columns.filter(isTold);
  const lines = new Map<number, number>();
  let line = 1;
  for (const row of rows) {
    line += 1 + table.columns.reduce((sum, column) => sum + breaksIn(row.cells[column] ?? ""), 0);
    lines.set(line, row.id);
  }
  return { text: delimited([columns, ...rows.map((row) => cellsOf({ ...table, columns }, row))], ",", "\n"), lines };
}

/** Return a row's cells in the table's order. */
export const cellsOf = (table: Table, row: Row): string[] => table.columns.map((column) => row.cells[column] ?? "");
