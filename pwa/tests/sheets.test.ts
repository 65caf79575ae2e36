/**
 * Workbooks and CSV as spreadsheet programs write them: every minute of a day, sheets by what people call them, accents.
 *
 * The files are zips of XML as ECMA-376 has them, part 1, 18.3 and 18.17.4 (days as numbers); how many digits a program
 * writes was read from files that they made: Excel 17, LibreOffice 15, openpyxl whatever a double needs.
 */

import { strToU8, zipSync } from "fflate";
import { beforeAll, expect, test } from "vitest";
import { emptyBook } from "../src/setup/files";
import { sheetsOf } from "../src/setup/sheets";
import { SPECS } from "../src/setup/specs";
import { findTable } from "../src/setup/titles";
import { takeFiles } from "../src/setup/uploads";
import { workbook } from "../src/setup/workbook";
import { french } from "../src/view/words/fr";
import { ENGLISH_TITLES } from "../src/view/words/setup";

const HEAD = '<?xml version="1.0" encoding="UTF-8"?>';
const MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';

const TITLES = [ENGLISH_TITLES, french.setup.table];

/** A file with one sheet of numbers, as text, each with the style of a day and time. */
function fileOf(rows: string[][], date1904: string): Blob {
  const cell = (text: string, column: number, row: number) =>
    `<c r="${String.fromCharCode(65 + column)}${row + 1}" s="1"><v>${text}</v></c>`;
  const data = rows.map((cells, at) => `<row r="${at + 1}">${cells.map((one, k) => cell(one, k, at)).join("")}</row>`);
  const R = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  const P = "http://schemas.openxmlformats.org/package/2006/relationships";
  const parts = {
    "[Content_Types].xml": '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>',
    "_rels/.rels": `<Relationships xmlns="${P}"><Relationship Id="r1" Type="${R}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `<workbook ${MAIN} xmlns:r="${R}"><workbookPr ${date1904}/><sheets><sheet name="services" sheetId="1" r:id="r1"/></sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships xmlns="${P}"><Relationship Id="r1" Type="${R}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="r2" Type="${R}/styles" Target="styles.xml"/></Relationships>`,
    // 22 is "m/d/yy h:mm", one of those that every program has.
    "xl/styles.xml": `<styleSheet ${MAIN}><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="22" applyNumberFormat="1"/></cellXfs></styleSheet>`,
    "xl/worksheets/sheet1.xml": `<worksheet ${MAIN}><sheetData>${data.join("")}</sheetData></worksheet>`,
  };
  const files = Object.entries(parts).map(([name, xml]) => [name, strToU8(HEAD + xml)] as const);
  return new Blob([new Uint8Array(zipSync(Object.fromEntries(files), { level: 0 }))]);
}

const cut = (digits: number) => (value: number) => {
  const text = value.toFixed(20);
  const whole = text.indexOf(".");
  return text.slice(0, whole + 1 + Math.max(0, digits - (value < 1 ? 0 : whole)));
};

/** How a program writes the number. */
const WRITERS: Record<string, (value: number) => string> = {
  "all that a double needs": (value) => String(value),
  "17 digits": (value) => value.toPrecision(17),
  "16 digits": (value) => value.toPrecision(16),
  "15 digits": (value) => value.toPrecision(15),
  "cut off after 15 digits": cut(15),
  "cut off after 13 digits": cut(13),
  "eleven digits": (value) => value.toPrecision(11),
};

/** Return the first rows that hold anything but what is wanted of all their cells: a difference of all takes a minute to print. */
function otherThan(wanted: string[], rows: string[][] | undefined): [string, string[] | undefined][] {
  const pairs = wanted.map((text, at): [string, string[] | undefined] => [text, rows?.[at]]);
  return pairs.filter(([text, cells]) => !cells?.length || cells.some((cell) => cell !== text)).slice(0, 3);
}

const MINUTES = Array.from({ length: 1440 }, (_, minute) => minute);
const clock = (minute: number) => new Date(minute * 60_000).toISOString().slice(11, 16);

/** Days from the begin of each way to count to a day. */
const EPOCHS = { "1900": Date.UTC(1899, 11, 30), "1904": Date.UTC(1904, 0, 1) };
const CASES: [day: string, from: keyof typeof EPOCHS, attribute: string][] = [
  ["2026-06-13", "1900", ""],
  ["2026-10-25", "1900", 'date1904="false"'],
  ["1969-12-31", "1900", 'date1904="0"'],
  ["2099-12-31", "1900", ""],
  ["2026-06-13", "1904", 'date1904="1"'],
  ["2026-06-13", "1904", 'date1904="true"'],
];

for (const [day, from, attribute] of CASES) {
  test(`all minutes of ${day} come in as they were typed, however they are stored (from ${from} ${attribute})`, async () => {
    const days = (Date.parse(day) - EPOCHS[from]) / 86_400_000;
    const written = Object.values(WRITERS);
    const rows = MINUTES.map((minute) => written.map((write) => write(days + minute / 1440)));
    const [sheet] = await sheetsOf(fileOf(rows, attribute));
    const wanted = (minute: number) => (minute === 0 ? day : `${day} ${clock(minute)}`);
    expect(otherThan(MINUTES.map(wanted), sheet?.rows)).toEqual([]);
  });
}

test("all minutes without a day are clocks, in both ways to count", async () => {
  const written = Object.values(WRITERS);
  const rows = MINUTES.slice(1).map((minute) => written.map((write) => write(minute / 1440)));
  for (const attribute of ["", 'date1904="1"']) {
    const [sheet] = await sheetsOf(fileOf(rows, attribute));
    expect(otherThan(MINUTES.slice(1).map(clock), sheet?.rows)).toEqual([]);
  }
});

test("seconds that somebody typed stay; a time that is text stays as it is", async () => {
  const half = 46_186 + (10 * 3600 + 20 * 60 + 30) / 86_400;
  expect((await sheetsOf(fileOf([[half.toPrecision(15)]], "")))[0]?.rows).toEqual([["2026-06-13 10:20:30"]]);
  const text = workbook([{ sheet: "services", rows: [["2026-06-13 10:20"]], widths: [] }]);
  expect((await sheetsOf(text))[0]?.rows).toEqual([["2026-06-13 10:20"]]);
});

test("a table is found by its name and by its title in either language, in any case, with or without accents", () => {
  const find = findTable(TITLES);
  const found = (name: string) => find(name)?.table ?? null;
  for (const { table } of SPECS) {
    const names = [table, ENGLISH_TITLES[table] ?? "", french.setup.table[table] ?? ""];
    for (const name of names) for (const one of [name, name.toUpperCase(), ` ${name} `]) expect(found(one)).toBe(table);
  }
  expect(["pieces", "Road books places", "inspect minutes by group", "Van Stock"].map(found)).toEqual([
    "parts",
    null,
    "inspect_minutes_by_group",
    "van",
  ]);
  expect(found("Holidays")).toBeNull();
});

test("no two tables have one title: a sheet can be meant for one alone", () => {
  for (const titles of TITLES) expect(new Set(Object.values(titles)).size).toBe(SPECS.length);
});

test("a workbook's sheets go to the tables that they are called after, in English or French, whatever is spoken", async () => {
  const rows = (part: string) => [
    ["part", "unit_cost"],
    [part, 7],
  ];
  const van = [
    ["part", "loaded"],
    ["rim", 2],
  ];
  const file = async (parts: string, stock: string) =>
    new File(
      [
        workbook([
          { sheet: parts, rows: rows("rim"), widths: [] },
          { sheet: stock, rows: van, widths: [] },
        ]),
      ],
      "a.xlsx",
    );
  for (const [parts, stock] of [
    ["Parts", "Van stock"],
    ["PIÈCES", "stock du camion"],
    ["parts", "van"],
  ] as const) {
    const taken = await takeFiles(emptyBook(), [await file(parts, stock)], null, TITLES);
    expect(taken.tables).toEqual(["parts", "van"]);
    expect(taken.book.tables.van?.rows[0]?.cells).toEqual({ part: "rim", loaded: "2" });
  }
  const one = await takeFiles(emptyBook(), [await file("Notes", "Stock du camion")], "van", TITLES);
  expect(one.book.tables.van?.rows[0]?.cells.loaded).toBe("2");
});

/** Bytes as Windows-1252 has them; letters that Latin 1 has too, since Node takes the one for the other. */
const bytes1252 = (text: string) => Uint8Array.from(text, (char) => char.charCodeAt(0));

const CSV = "part;description;unit_cost\r\ndurite;durite de frein arrière;12,5\r\n";
let encoded: Record<string, Uint8Array<ArrayBuffer>>;
beforeAll(() => {
  const utf16 = new Uint8Array(Uint16Array.from(`\ufeff${CSV}`, (char) => char.charCodeAt(0)).buffer);
  encoded = { "Windows-1252": bytes1252(CSV), "UTF-8": strToU8(CSV) as Uint8Array<ArrayBuffer>, "UTF-16": utf16 };
});

test("a CSV in Windows-1252 is read as such, and said to be; in UTF-8 or UTF-16 nothing need be said", async () => {
  for (const [name, bytes] of Object.entries(encoded)) {
    const taken = await takeFiles(emptyBook(), [new File([bytes], "Pièces.csv")], null, TITLES);
    expect(taken.book.tables.parts?.rows[0]?.cells).toEqual({
      part: "durite",
      description: "durite de frein arrière",
      unit_cost: "12.5",
    });
    expect(taken.guessed, name).toEqual(name === "Windows-1252" ? ["Pièces.csv"] : []);
  }
});

test("so is one inside a zipped event folder", async () => {
  const files = {
    "event.toml": strToU8('event = "e"\n'),
    "rates/parts.csv": bytes1252("part,description\nrim,arrière\n"),
  };
  const taken = await takeFiles(emptyBook(), [new File([new Uint8Array(zipSync(files))], "e.zip")], null, TITLES);
  expect(taken.book.tables.parts?.rows[0]?.cells.description).toBe("arrière");
  expect(taken.guessed).toEqual(["rates/parts.csv"]);
});
