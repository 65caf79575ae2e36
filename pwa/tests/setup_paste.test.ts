/** Text from spreadsheets in rows of cells: quotes, tabs, line ends, formulas; and a block put into a table. */

import { expect, test } from "vitest";
import { defused, delimited, delimiterOf, linesOf, undefused } from "../src/setup/delimited";
import { blockOf, isBlock, pasted, tidied } from "../src/setup/paste";
import { specOf } from "../src/setup/specs";
import { tableOf } from "../src/setup/table";

const cells = (text: string, delimiter = ",") => linesOf(text, delimiter).map((line) => line.cells);

test("CSV as RFC 4180 has it: quotes, doubled quotes, breaks in quotes, each kind of line end", () => {
  // Section 2 of RFC 4180, its examples with names of ours.
  expect(cells("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n")).toEqual([
    ["aaa", "bbb", "ccc"],
    ["zzz", "yyy", "xxx"],
  ]);
  expect(cells('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
    ["aaa", "b\r\nbb", "ccc"],
    ["zzz", "yyy", "xxx"],
  ]);
  expect(cells('"aaa","b""bb","ccc"')).toEqual([["aaa", 'b"bb', "ccc"]]);
  expect(cells("a,b\rc,d\n,\n")).toEqual([
    ["a", "b"],
    ["c", "d"],
    ["", ""],
  ]);
  expect(cells("\ufeffa,b")).toEqual([["a", "b"]]);
  expect(cells("a,")).toEqual([["a", ""]]);
  expect(cells("")).toEqual([]);
  expect(cells('a,"never closed\nb')).toEqual([["a", "never closed\nb"]]);
  expect(cells('5" rim,x')).toEqual([['5" rim', "x"]]);
});

test("each row says the line that it ends on", () => {
  expect(linesOf('h\n"a\r\nb"\nc', ",").map((line) => line.line)).toEqual([1, 3, 4]);
});

test("a block from the clipboard: tabs between cells, a tab and a break inside quotes", () => {
  expect(blockOf("a\tb\r\nc\td\r\n")).toEqual([
    ["a", "b"],
    ["c", "d"],
  ]);
  expect(blockOf('"one\ttwo"\t"say ""go"""\n"two\nlines"\tx')).toEqual([
    ["one\ttwo", 'say "go"'],
    ["two\nlines", "x"],
  ]);
  expect([isBlock("one"), isBlock("one\r\n"), isBlock("a\tb"), isBlock("a\nb")]).toEqual([false, false, true, true]);
});

test("what is written is read again as it was", () => {
  const rows = [
    ["a", 'b"c', "d,e", "f\ng", " h ", ""],
    ["=1+1", "\t", "'", '"', "\r\n", "é"],
  ];
  for (const delimiter of [",", ";", "\t"]) expect(cells(delimited(rows, delimiter, "\r\n"), delimiter)).toEqual(rows);
});

test("formulas are defused on the way out and whole again on the way in; other apostrophes stay", () => {
  for (const cell of ["=1+1", "+49", "-5", "@x", "\tx", "\rx", "'=1", "''+x", "'s", "plain", ""]) {
    expect(undefused(defused(cell))).toBe(cell);
    expect(/^[=+\-@\t\r]/.test(defused(cell))).toBe(false);
  }
  expect(defused("=1+1")).toBe("'=1+1");
  expect(undefused("'s Gravenhage")).toBe("'s Gravenhage");
});

test("a file's delimiter is what its first line has most of", () => {
  expect(["part,loaded\n1;2;3", "part;loaded\n1,5;2", "part\tloaded"].map(delimiterOf)).toEqual([",", ";", "\t"]);
});

test("a decimal comma in a column of numbers is a point; in text it stays", () => {
  expect([tidied("number", "1,5"), tidied("text", "1,5"), tidied("number", "1,500.5")]).toEqual([
    "1.5",
    "1,5",
    "1,500.5",
  ]);
  expect([tidied("flag", "TRUE"), tidied("text", "'=x")]).toEqual(["true", "=x"]);
});

const van = specOf("van");
const table = tableOf(
  ["part", "loaded"],
  [
    { part: "rim", loaded: "1" },
    { part: "hose", loaded: "2" },
  ],
);

function put(text: string, id: number, column: string, shown = [0, 1]) {
  if (!van) throw new Error("no van");
  return pasted(table, van, { id, column }, blockOf(text), shown);
}

const said = (made: ReturnType<typeof put>) =>
  made.table.rows.map((row) => [row.cells.part ?? "", row.cells.loaded ?? ""]);

test("a block goes to the right and down from its cell, and adds the rows that it needs", () => {
  const made = put("lamp\t3\nbolt\t4\nnut\t5", 1, "part");
  expect(said(made)).toEqual([
    ["rim", "1"],
    ["lamp", "3"],
    ["bolt", "4"],
    ["nut", "5"],
  ]);
  expect([made.cells, made.rows, made.left_out]).toEqual([6, 2, 0]);
});

test("what has no column to go to is left out and counted", () => {
  const made = put("7\tlost\n8\t", 0, "loaded");
  expect(said(made)).toEqual([
    ["rim", "7"],
    ["hose", "8"],
  ]);
  expect(made.left_out).toBe(1);
});

test("a block with the columns' names goes to those columns, in whatever order it has them", () => {
  expect(said(put("loaded\tpart\n9\tlamp", 0, "part"))).toEqual([
    ["lamp", "9"],
    ["hose", "2"],
  ]);
});

test("with only some rows shown a block goes over those, not over hidden ones between", () => {
  expect(said(put("5\n6", 1, "loaded", [1]))).toEqual([
    ["rim", "1"],
    ["hose", "5"],
    ["", "6"],
  ]);
});
