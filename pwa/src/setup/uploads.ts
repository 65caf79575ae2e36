/** Takes files that a manager chose into a book: CSV, a workbook, TOML files, or a whole event folder as a zip. */

import { unzipSync } from "fflate";
import { delimiterOf, linesOf } from "./delimited";
import { bookOf, type Files } from "./files";
import { tidied } from "./paste";
import { columnOf, EVENT_FILE, keyOf, SPECS, type Spec, specOf } from "./specs";
import { type Book, type Cells, type Row, type Table, tableOf } from "./table";

/** What was taken: the tables, and what of the files had no place here. */
export interface Taken {
  book: Book;
  tables: string[];
  left_out: string[];
}

/** A file that can't be taken; the text says why, for the person. */
export class BadUpload extends Error {}

/** Take files into a book; `table` is where a file goes whose name tells none. Errors: BadUpload; nothing is taken then. */
export async function takeFiles(book: Book, chosen: File[], table: string | null): Promise<Taken> {
  const taken: Taken = { book, tables: [], left_out: [] };
  for (const file of chosen) await takeFile(taken, file, table);
  return taken;
}

async function takeFile(taken: Taken, file: File, table: string | null): Promise<void> {
  const name = file.name.toLowerCase();
  if (name.endsWith(".xlsx")) return takeWorkbook(taken, file, table);
  if (name.endsWith(".zip")) return takeAll(taken, await unzipped(file));
  if (name.endsWith(".toml")) {
    const place = SPECS.find((spec) => spec.file.split("/").at(-1) === file.name)?.file;
    if (!place) throw new BadUpload(`${file.name}: a TOML file here is event.toml, car_map.toml or rates.toml.`);
    return takeAll(taken, { [place]: await file.text() });
  }
  const spec = specOf(table ?? "") ?? specOf(file.name.replace(/\.[^.]*$/, ""));
  if (!spec)
    throw new BadUpload(
      `${file.name}: its name tells no table, such as parts.csv. Open the table and upload it there.`,
    );
  const text = await file.text();
  const rows = linesOf(text, delimiterOf(text)).map((line) => line.cells);
  put(taken, spec, rows, file.name);
}

async function takeWorkbook(taken: Taken, file: File, table: string | null): Promise<void> {
  const { sheetsOf } = await import("./sheets");
  const sheets = await sheetsOf(file).catch((error: unknown) => {
    // Whatever the reader says of bytes that are no workbook.
    throw new BadUpload(
      `${file.name}: can't be read as a workbook (${error instanceof Error ? error.message : error}).`,
    );
  });
  if (table !== null) {
    const sheet = sheets.find((one) => one.sheet === table) ?? sheets[0];
    const spec = specOf(table);
    if (sheet && spec) put(taken, spec, sheet.rows, file.name);
    return;
  }
  for (const { sheet, rows } of sheets) {
    const spec = specOf(sheet);
    if (spec) put(taken, spec, rows, sheet);
    else taken.left_out.push(`sheet ${sheet}`);
  }
  if (taken.tables.length === 0)
    throw new BadUpload(`${file.name}: no sheet has the name of a table, such as parts or people.`);
}

function takeAll(taken: Taken, files: Files): void {
  const before = taken.book;
  // Times of an event file are read in its own zone, those of another file in none.
  const read = readBook(files);
  const tables = SPECS.filter((spec) => spec.file in files).map((spec) => spec.table);
  if (tables.length === 0) throw new BadUpload("No file of a set-up is in it: it starts with event.toml.");
  const some = Object.fromEntries(tables.map((table) => [table, read.tables[table] as Table]));
  const other = Object.entries(before.rest).filter(([file]) => !(file in files));
  const rest = { ...Object.fromEntries(other), ...read.rest };
  const present = [...new Set([...before.present, ...read.present])];
  taken.book = { tables: { ...before.tables, ...some }, rest, present };
  taken.tables.push(...tables);
}

function readBook(files: Files): Book {
  try {
    return bookOf(files);
  } catch (error) {
    if (error instanceof Error) throw new BadUpload(`A file is not valid TOML: ${error.message}`);
    throw error;
  }
}

async function unzipped(file: File): Promise<Files> {
  const packed = new Uint8Array(await file.arrayBuffer());
  let files: Record<string, Uint8Array>;
  try {
    files = unzipSync(packed, { filter: ({ name, originalSize }) => SETUP.test(name) && originalSize < MOST_BYTES });
  } catch (error) {
    if (error instanceof Error) throw new BadUpload(`${file.name}: can't be read as a zip file (${error.message}).`);
    throw error;
  }
  // An event folder may be packed with the folder around it.
  const root = Object.keys(files).find((name) => name.endsWith(EVENT_FILE)) ?? "";
  const folder = root.slice(0, -EVENT_FILE.length);
  const inside = Object.entries(files).filter(([name]) => name.startsWith(folder));
  return Object.fromEntries(
    inside.map(([name, bytes]) => [name.slice(folder.length), new TextDecoder().decode(bytes)]),
  );
}

const SETUP = /(^|\/)(event\.toml|car_map\.toml|van\.csv|rates\/[\w-]+\.(csv|toml))$/;
const MOST_BYTES = 8 << 20;

/** Put rows with their header in place of a table; what a row says beside its columns stays with its key. */
function put(taken: Taken, spec: Spec, rows: string[][], name: string): void {
  const [head = [], ...below] = rows;
  const columns = head.map((cell) => cell.trim());
  const known = columns.filter((column) => spec.columns.some((one) => one.column === column));
  if (known.length === 0)
    throw new BadUpload(`${name}: its first row names none of the columns of ${spec.table}: ${listed(spec)}.`);
  const strange = columns.filter((column) => column !== "" && !known.includes(column));
  taken.left_out.push(...strange.map((column) => `column ${column} of ${name}`));
  const filled = below.map((cells) => cellsFrom(spec, columns, known, cells));
  const made = tableOf(
    spec.columns.map((one) => one.column),
    filled.filter((cells) => Object.keys(cells).length > 0),
  );
  const old = taken.book.tables[spec.table];
  const table = { ...made, rows: made.rows.map((row) => withRest(spec, old, row)) };
  taken.book = { ...taken.book, tables: { ...taken.book.tables, [spec.table]: table } };
  taken.tables.push(spec.table);
}

const listed = (spec: Spec) => spec.columns.map((one) => one.column).join(", ");

function cellsFrom(spec: Spec, columns: string[], known: string[], cells: string[]): Cells {
  const pairs = columns.map((column, at) => [column, tidied(columnOf(spec, column).kind, cells[at] ?? "")] as const);
  return Object.fromEntries(pairs.filter(([column, cell]) => known.includes(column) && cell !== ""));
}

function withRest(spec: Spec, old: Table | undefined, row: Row): Row {
  const key = keyOf(spec, row.cells);
  const rest = old?.rows.find((one) => keyOf(spec, one.cells) === key)?.rest;
  return rest ? { ...row, rest } : row;
}
