/** Spreadsheet files: all tables as one workbook with a sheet each, and a workbook as rows of cells. Loaded when used. */

import { defused } from "./delimited";
import { cellsOf } from "./files";
import { columnOf, type Spec } from "./specs";
import { isBlank, type Table } from "./table";

/** A sheet as text; days read 2026-06-13, times 2026-06-13 10:20. */
export interface Sheet {
  sheet: string;
  rows: string[][];
}

const NUMBER = /^-?\d{1,15}(\.\d{1,10})?$/;

/** Return tables as a workbook (Office Open XML): a sheet each, its first row the columns. */
export async function workbookOf(tables: { spec: Spec; table: Table }[]): Promise<Blob> {
  const { default: writeXlsxFile } = await import("write-excel-file/universal");
  const sheets = tables.map(({ spec, table }) => ({
    sheet: spec.table,
    stickyRowsCount: 1,
    columns: table.columns.map((column) => ({ width: Math.max(12, column.length + 2) })),
    data: [
      table.columns.map((value) => ({ value, fontWeight: "bold" as const })),
      ...table.rows.filter((row) => !isBlank(row)).map((row) => cellsOf(table, row).map(typed(table, spec))),
    ],
  }));
  return await writeXlsxFile(sheets).toBlob();
}

const typed = (table: Table, spec: Spec) => (cell: string, at: number) => {
  const isNumber = columnOf(spec, table.columns[at] ?? "").kind === "number" && NUMBER.test(cell);
  if (cell === "") return null;
  return isNumber ? { value: Number(cell), type: Number } : { value: defused(cell), type: String };
};

/** Read a workbook. Errors: what the reader says of a file that is none. */
export async function sheetsOf(file: Blob): Promise<Sheet[]> {
  const { default: readXlsxFile } = await import("read-excel-file/universal");
  const sheets = await readXlsxFile(file, { parseNumber: numberText });
  return sheets.map(({ sheet, data }) => ({ sheet, rows: data.map((row) => row.map(cellText)) }));
}

// A spreadsheet keeps doubles: 0.1 + 0.2 is written with 17 digits, and its screen shows 15.
const numberText = (text: string): string => String(Number(Number(text).toPrecision(15)));

function cellText(value: unknown): string {
  if (value === null || value === undefined) return "";
  if (value instanceof Date) {
    const [day, time = ""] = value.toISOString().split("T");
    return time.startsWith("00:00:00") ? `${day}` : `${day} ${time.slice(0, 5)}`;
  }
  return String(value);
}
