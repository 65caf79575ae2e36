/** Takes files that a manager chose into a book: CSV, a workbook, TOML files, or a whole event folder as a zip. */

import { unzipSync } from "fflate";
import { taking } from "../kit/taking";
import { decoded } from "./decoding";
import { delimiterOf, linesOf } from "./delimited";
import { bookOf, type Files } from "./files";
import { tidied } from "./paste";
import { columnOf, EVENT_FILE, keyOf, SPECS, type Spec, specOf } from "./specs";
import { type Book, type Cells, type Row, type Table, tableOf } from "./table";
import { findTable, type Titles } from "./titles";

/** What was taken: the tables, what of the files had no place here, and the files that were read as Windows-1252. */
export interface Taken {
  book: Book;
  tables: string[];
  left_out: string[];
  guessed: string[];
}

interface Place {
  /** Where a file goes whose name tells none; null for anywhere. */
  table: string | null;
  find: (name: string) => Spec | null;
}

/** A file that can't be taken; the text says why, for the person. */
export class BadUpload extends Error {}

/**
 * Take files into a book. `table` is where a file goes whose name tells none; `titles`: what else the tables are called.
 * Errors: BadUpload; nothing is taken then.
 */
export async function takeFiles(
  book: Book,
  chosen: File[],
  table: string | null,
  titles: readonly Titles[] = [],
): Promise<Taken> {
  const taken: Taken = { book, tables: [], left_out: [], guessed: [] };
  const place = { table, find: findTable(titles) };
  for (const file of chosen) await takeFile(taken, file, place);
  return taken;
}

async function takeFile(taken: Taken, file: File, { table, find }: Place): Promise<void> {
  const name = file.name.toLowerCase();
  if (name.endsWith(".xlsx")) return takeWorkbook(taken, file, { table, find });
  if (name.endsWith(".zip")) return takeAll(taken, await unzipped(taken, file));
  if (name.endsWith(".toml")) {
    const place = SPECS.find((spec) => spec.file.split("/").at(-1) === file.name)?.file;
    if (!place) throw new BadUpload(taking.whichToml(file.name));
    return takeAll(taken, { [place]: await textOf(taken, file) });
  }
  const spec = specOf(table ?? "") ?? find(file.name.replace(/\.[^.]*$/, ""));
  if (!spec) throw new BadUpload(taking.whichTable(file.name));
  const text = await textOf(taken, file);
  const rows = linesOf(text, delimiterOf(text)).map((line) => line.cells);
  put(taken, spec, rows, file.name);
}

const textOf = async (taken: Taken, file: File) => readAs(taken, file.name, new Uint8Array(await file.arrayBuffer()));

function readAs(taken: Taken, name: string, bytes: Uint8Array): string {
  const { text, guessed } = decoded(bytes);
  if (guessed) taken.guessed.push(name);
  return text;
}

async function takeWorkbook(taken: Taken, file: File, { table, find }: Place): Promise<void> {
  const { sheetsOf } = await import("./sheets");
  const sheets = await sheetsOf(file).catch((error: unknown) => {
    // Whatever the reader says of bytes that are no workbook.
    throw new BadUpload(taking.noWorkbook(file.name, error instanceof Error ? error.message : String(error)));
  });
  if (table !== null) {
    const sheet = sheets.find((one) => find(one.sheet)?.table === table) ?? sheets[0];
    const spec = specOf(table);
    if (sheet && spec) put(taken, spec, sheet.rows, file.name);
    return;
  }
  for (const { sheet, rows } of sheets) {
    const spec = find(sheet);
    if (spec) put(taken, spec, rows, sheet);
    else taken.left_out.push(taking.sheet(sheet));
  }
  if (taken.tables.length === 0) throw new BadUpload(taking.noSheet(file.name));
}

function takeAll(taken: Taken, files: Files): void {
  const before = taken.book;
  // Times of an event file are read in its own zone, those of another file in none.
  const read = readBook(files);
  const tables = SPECS.filter((spec) => spec.file in files).map((spec) => spec.table);
  if (tables.length === 0) throw new BadUpload(taking.noFiles);
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
    if (error instanceof Error) throw new BadUpload(taking.noToml(error.message));
    throw error;
  }
}

async function unzipped(taken: Taken, file: File): Promise<Files> {
  const packed = new Uint8Array(await file.arrayBuffer());
  let files: Record<string, Uint8Array>;
  try {
    files = unzipSync(packed, { filter: ({ name, originalSize }) => SETUP.test(name) && originalSize < MOST_BYTES });
  } catch (error) {
    if (error instanceof Error) throw new BadUpload(taking.noZip(file.name, error.message));
    throw error;
  }
  // An event folder may be packed with the folder around it.
  const root = Object.keys(files).find((name) => name.endsWith(EVENT_FILE)) ?? "";
  const folder = root.slice(0, -EVENT_FILE.length);
  const inside = Object.entries(files).filter(([name]) => name.startsWith(folder));
  return Object.fromEntries(inside.map(([name, bytes]) => [name.slice(folder.length), readAs(taken, name, bytes)]));
}

const SETUP = /(^|\/)(event\.toml|car_map\.toml|van\.csv|rates\/[\w-]+\.(csv|toml))$/;
const MOST_BYTES = 8 << 20;

/** Put rows with their header in place of a table; what a row says beside its columns stays with its key. */
function put(taken: Taken, spec: Spec, rows: string[][], name: string): void {
  const [head = [], ...below] = rows;
  const columns = head.map((cell) => cell.trim());
  const known = columns.filter((column) => spec.columns.some((one) => one.column === column));
  if (known.length === 0) throw new BadUpload(taking.noColumns(name, spec.table, listed(spec)));
  const strange = columns.filter((column) => column !== "" && !known.includes(column));
  taken.left_out.push(...strange.map((column) => taking.column(column, name)));
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
