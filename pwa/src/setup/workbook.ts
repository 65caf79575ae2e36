/**
 * Writes a workbook: a zip of XML parts (ECMA-376, Office Open XML, part 1: SpreadsheetML; transitional names).
 *
 * The text of a cell stands in the cell itself (`inlineStr`), so that no table of strings is needed. The zip is made on
 * this thread: the content policy lets no worker start from a text.
 */

import { strToU8, zipSync } from "fflate";

/** A day of the calendar, YYYY-MM-DD from 1 March 1900 on, which a spreadsheet sorts and filters as one. */
export interface DayCell {
  day: string;
}

export interface WorkbookSheet {
  sheet: string;
  /** Its first row stays in sight. */
  rows: (string | number | DayCell)[][];
  /** In characters. */
  widths: number[];
}

const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

/** Style 0 is plain, style 1 a day. */
const STYLES =
  `<styleSheet xmlns="${MAIN}"><numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd"/></numFmts>` +
  '<fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts>' +
  '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>' +
  '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>' +
  '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>' +
  '<cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>' +
  '<xf numFmtId="164" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs>' +
  '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>';

/** Unix time 0 as days since 30 December 1899, from which spreadsheets count (ECMA-376 part 1, 18.17.4.1). */
const EPOCH_DAY = 25_569;
const DAY_MS = 86_400_000;

/** Return sheets as a workbook. */
export function workbook(sheets: WorkbookSheet[]): Blob {
  const parts: Record<string, string> = {
    "[Content_Types].xml": contentTypes(sheets.length),
    "_rels/.rels": relations([["officeDocument", "xl/workbook.xml"]]),
    "xl/workbook.xml": book(sheets),
    "xl/_rels/workbook.xml.rels": relations([
      ...sheets.map((_, at) => ["worksheet", `worksheets/sheet${at + 1}.xml`]),
      ["styles", "styles.xml"],
    ]),
    "xl/styles.xml": STYLES,
  };
  sheets.forEach((sheet, at) => {
    parts[`xl/worksheets/sheet${at + 1}.xml`] = worksheet(sheet);
  });
  const files = Object.entries(parts).map(([name, xml]) => [name, strToU8(HEAD + xml)] as const);
  return new Blob([new Uint8Array(zipSync(Object.fromEntries(files)))], { type: TYPE });
}

function contentTypes(sheets: number): string {
  const kind = (name: string, type: string) =>
    `<Override PartName="/xl/${name}.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.${type}+xml"/>`;
  const each = Array.from({ length: sheets }, (_, at) => kind(`worksheets/sheet${at + 1}`, "worksheet"));
  const usual =
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>' +
    '<Default Extension="xml" ContentType="application/xml"/>';
  return `<Types xmlns="${PACKAGE}/content-types">${usual}${kind("workbook", "sheet.main")}${kind("styles", "styles")}${each.join("")}</Types>`;
}

function relations(targets: string[][]): string {
  const each = targets.map(
    ([type, target], at) => `<Relationship Id="rId${at + 1}" Type="${RELATIONS}/${type}" Target="${target}"/>`,
  );
  return `<Relationships xmlns="${PACKAGE}/relationships">${each.join("")}</Relationships>`;
}

function book(sheets: WorkbookSheet[]): string {
  const each = sheets.map(
    ({ sheet }, at) => `<sheet name="${escaped(sheet)}" sheetId="${at + 1}" r:id="rId${at + 1}"/>`,
  );
  return `<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><sheets>${each.join("")}</sheets></workbook>`;
}

function worksheet({ rows, widths }: WorkbookSheet): string {
  const pane = '<pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/>';
  const view = `<sheetViews><sheetView workbookViewId="0">${pane}</sheetView></sheetViews>`;
  const columns = widths.map((width, at) => `<col min="${at + 1}" max="${at + 1}" width="${width}" customWidth="1"/>`);
  const each = rows.map((cells, at) => `<row r="${at + 1}">${cells.map((one, k) => cell(one, k, at)).join("")}</row>`);
  const data = `<sheetData>${each.join("")}</sheetData>`;
  return `<worksheet xmlns="${MAIN}">${view}<cols>${columns.join("")}</cols>${data}</worksheet>`;
}

function cell(value: string | number | DayCell, column: number, row: number): string {
  if (value === "") return "";
  const at = `${letters(column)}${row + 1}`;
  if (typeof value === "number") return `<c r="${at}"><v>${value}</v></c>`;
  if (typeof value === "object") {
    return `<c r="${at}" s="1"><v>${Math.round(Date.parse(value.day) / DAY_MS) + EPOCH_DAY}</v></c>`;
  }
  return `<c r="${at}" t="inlineStr"><is><t xml:space="preserve">${escaped(value)}</t></is></c>`;
}

/** A column's letters: A to Z, AA … */
function letters(column: number): string {
  const last = String.fromCharCode(65 + (column % 26));
  return column < 26 ? last : letters(Math.floor(column / 26) - 1) + last;
}

// Control characters but tab and line ends cannot stand in XML 1.0 at all.
function escaped(text: string): string {
  const plain = [...text].filter((char) => char >= " " || "\t\n\r".includes(char)).join("");
  return plain.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
}
