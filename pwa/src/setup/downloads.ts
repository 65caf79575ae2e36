/** Makes files for a manager to take away: a table as CSV, all tables as a workbook, the event folder as a zip. */

import { strToU8, zipSync } from "fflate";
import { defused, delimited } from "./delimited";
import { cellsOf, filesOf } from "./files";
import { SPECS, type Spec } from "./specs";
import { type Book, isBlank, type Table } from "./table";

const CSV = "text/csv;charset=utf-8";

/** Return a table as CSV for a spreadsheet: CRLF, and no cell that it would take for a formula. */
export function csvFile(spec: Spec, table: Table): File {
  const rows = table.rows.filter((row) => !isBlank(row)).map((row) => cellsOf(table, row).map(defused));
  // With the mark at the begin spreadsheets read it as UTF-8.
  const text = `\ufeff${delimited([table.columns, ...rows], ",", "\r\n")}`;
  return new File([text], `${spec.table}.csv`, { type: CSV });
}

/** Return all tables as one workbook. */
export async function workbookFile(book: Book, name: string): Promise<File> {
  const { workbookOf } = await import("./sheets");
  const tables = SPECS.flatMap((spec) => {
    const table = book.tables[spec.table];
    return table ? [{ spec, table }] : [];
  });
  return new File([workbookOf(tables)], `${name}.xlsx`);
}

/** Return the event folder as a zip, as the server's `load` reads it once unpacked; defused is nothing in it. */
export function folderFile(book: Book, name: string): File {
  const files = Object.entries(filesOf(book).files).map(([file, text]) => [`${name}/${file}`, strToU8(text)] as const);
  return new File([new Uint8Array(zipSync(Object.fromEntries(files)))], `${name}.zip`, { type: "application/zip" });
}
