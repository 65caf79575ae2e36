/** Spreadsheet files: all tables as one workbook with a sheet each, and a workbook as rows of cells. Loaded when used. */

import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { defused } from "./delimited";
import { cellsOf } from "./files";
import { columnOf, type Spec } from "./specs";
import { isBlank, type Table } from "./table";
import { workbook } from "./workbook";

/** A sheet as text; days read 2026-06-13, times 2026-06-13 10:20. */
export interface Sheet {
  sheet: string;
  rows: string[][];
}

const NUMBER = /^-?\d{1,15}(\.\d{1,10})?$/;

/** Return tables as a workbook (Office Open XML): a sheet each, its first row the columns. */
export function workbookOf(tables: { spec: Spec; table: Table }[]): Blob {
  return workbook(
    tables.map(({ spec, table }) => ({
      sheet: spec.table,
      widths: table.columns.map((column) => Math.max(12, column.length + 2)),
      rows: [
        table.columns,
        ...table.rows.filter((row) => !isBlank(row)).map((row) => cellsOf(table, row).map(typed(table, spec))),
      ],
    })),
  );
}

const typed = (table: Table, spec: Spec) => (cell: string, at: number) => {
  const { kind } = columnOf(spec, table.columns[at] ?? "");
  if (kind === "number" && NUMBER.test(cell)) return Number(cell);
  return kind === "day" && isDay(cell) ? { day: cell } : defused(cell);
};

/** A day that spreadsheets count right: before March 1900 they know a 29 February that there was not. */
const isDay = (cell: string): boolean =>
  /^\d{4}-\d\d-\d\d$/.test(cell) && cell >= "1900-03-01" && !Number.isNaN(Date.parse(cell));

/** Read a workbook. Errors: what the reader says of a file that is none. */
export async function sheetsOf(file: Blob): Promise<Sheet[]> {
  const { default: readXlsxFile } = await import("read-excel-file/web-worker");
  const sheets = await readXlsxFile(await storedAsIs(file), { parseNumber: numberText });
  return sheets.map(({ sheet, data }) => ({ sheet, rows: data.map((row) => row.map(cellText)) }));
}

/**
 * Return a zip file whose parts are not packed. The reader starts a worker from a text for large packed parts, which the
 * content policy forbids; what is not packed it takes as it is.
 */
async function storedAsIs(file: Blob): Promise<Blob> {
  let total = 0;
  const parts = unzipSync(new Uint8Array(await file.arrayBuffer()), {
    filter: ({ originalSize }) => {
      total += originalSize;
      return total < MOST_BYTES;
    },
  });
  const book = parts[BOOK];
  if (book) parts[BOOK] = strToU8(strFromU8(book).replace(/\bdate1904=(["'])true\1/, 'date1904="1"'));
  return new Blob([new Uint8Array(zipSync(parts, { level: 0 }))]);
}

const MOST_BYTES = 64 << 20;

/** The reader knows days counted from 1904 by a "1" alone; XML Schema has "true" for the same, and some programs write it. */
const BOOK = "xl/workbook.xml";

// A spreadsheet keeps doubles: 0.1 + 0.2 is written with 17 digits, and its screen shows 15.
const numberText = (text: string): string => String(Number(Number(text).toPrecision(15)));

function cellText(value: unknown): string {
  if (value === null || value === undefined) return "";
  return value instanceof Date ? timeText(value.getTime()) : String(value);
}

/**
 * A file holds a time as a fraction of a day, rounded or cut off by whoever wrote it: 10:20 as 0.430555555555555, which is
 * 10:19:59.999. The second that is meant is the nearest one.
 */
function timeText(ms: number): string {
  const [day = "", clock = ""] = new Date(Math.round(ms / 1000) * 1000).toISOString().slice(0, 19).split("T");
  const time = clock.endsWith(":00") ? clock.slice(0, 5) : clock;
  if (NO_DAY.includes(day)) return time;
  return time === "00:00" ? day : `${day} ${time}`;
}

/** Day 0 of both ways to count (from 1900 and from 1904): a clock without a day. */
const NO_DAY = ["1899-12-30", "1904-01-01"];
