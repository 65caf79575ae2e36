/** What a draft changes, how it goes onto a newer version, and a new event from the last one. */

import { expect, test } from "vitest";
import { brought, changedTables, changes } from "../src/setup/changes";
import { bookOf, filesOf } from "../src/setup/files";
import { eventId, firstDayOf, nextEvent } from "../src/setup/next_event";
import { type Book, type Table, withCell, withMoved, withoutRow, withRow } from "../src/setup/table";
import { sampleFiles } from "./setup_files";

const sample = () => bookOf(sampleFiles());

function edited(book: Book, table: string, edit: (table: Table) => Table): Book {
  const before = book.tables[table];
  if (!before) throw new Error(`no ${table}`);
  return { ...book, tables: { ...book.tables, [table]: edit(before) } };
}

test("a book has no change against itself, nor against what its own files say", () => {
  expect(changes(sample(), sample())).toEqual([]);
  expect(changes(sample(), bookOf(filesOf(sample()).files))).toEqual([]);
});

test("rows that came, went, read otherwise or moved are told with their key and cells", () => {
  const changed = edited(sample(), "stages", (table) => withCell(table, 1, "km", "15"));
  expect(changes(sample(), changed)).toEqual([
    { table: "stages", key: "SS2", change: "changed", cells: [{ field: "km", before: "14.2", after: "15" }] },
  ]);
  const gone = edited(sample(), "cars", (table) => withoutRow(table, 0));
  expect(changes(sample(), gone).map(({ key, change }) => [key, change])).toEqual([["41", "removed"]]);
  const fresh = edited(sample(), "cars", (table) => withCell(withRow(table, null).table, 2, "car", "43"));
  expect(changes(sample(), fresh).map(({ key, change }) => [key, change])).toEqual([["43", "added"]]);
  const moved = edited(sample(), "stages", (table) => withMoved(table, 0, 1));
  expect(changes(sample(), moved).map((one) => one.change)).toEqual(["moved"]);
  expect([...changedTables(sample(), fresh)]).toEqual([["cars", 1]]);
});

test("an empty row that was added is no change", () => {
  expect(
    changes(
      sample(),
      edited(sample(), "cars", (table) => withRow(table, null).table),
    ),
  ).toEqual([]);
});

test("a draft brought onto a newer version: my cells are mine, all else is theirs", () => {
  const base = sample();
  const mine = edited(
    edited(base, "stages", (table) => withCell(table, 0, "km", "10")),
    "cars",
    (table) => withoutRow(table, 1),
  );
  const theirs = edited(
    edited(base, "stages", (table) => withCell(withCell(table, 0, "stage", "SS1"), 1, "km", "20")),
    "people",
    (table) => withCell(withRow(table, null).table, 9, "person", "p-new"),
  );
  const both = brought(base, mine, theirs);
  expect(both.tables.stages?.rows.slice(0, 2).map((row) => row.cells.km)).toEqual(["10", "20"]);
  expect(both.tables.cars?.rows.map((row) => row.cells.car)).toEqual(["41"]);
  expect(both.tables.people?.rows.at(-1)?.cells.person).toBe("p-new");
  expect(changes(theirs, both).map(({ table, change }) => [table, change])).toEqual([
    ["cars", "removed"],
    ["stages", "changed"],
  ]);
});

test("a row that they took out stays out unless I changed it; a row that I added stays", () => {
  const base = sample();
  const theirs = edited(base, "stages", (table) => withoutRow(withoutRow(table, 0), 1));
  const mine = edited(base, "stages", (table) => {
    const changed = withCell(table, 0, "km", "11");
    return withCell(withRow(changed, null).table, 9, "stage", "SS10");
  });
  const names = brought(base, mine, theirs).tables.stages?.rows.map((row) => row.cells.stage);
  expect(names).toEqual(["SS3", "SS4", "SS5", "SS6", "SS7", "SS8", "SS9", "SS1", "SS10"]);
});

test("without a change of theirs a draft is itself", () => {
  const mine = edited(sample(), "parts", (table) => withCell(table, 0, "unit_cost", "1"));
  expect(changes(mine, brought(sample(), mine, sample()))).toEqual([]);
});

test("a new event takes all over but stages, agreements and days", () => {
  const last = sample();
  expect(firstDayOf(last)).toBe("2026-06-13");
  const next = nextEvent(last, { event: "x-2027", name: "X", first_day: "2027-06-12", stages: "emptied" });
  const tables = [...changedTables(last, next).keys()];
  expect(tables.sort()).toEqual(["agreements", "clauses", "event", "places", "services", "stages"]);
  expect(next.tables.stages?.rows).toEqual([]);
  expect(next.tables.services?.rows.map((row) => row.cells.arrive)).toEqual([
    "2027-06-12 10:20",
    "2027-06-12 13:40",
    "2027-06-12 18:30",
    "2027-06-13 10:12",
    "2027-06-13 12:50",
  ]);
  expect(next.tables.services?.rows.every((row) => row.cells.after === "")).toBe(true);
});

test("stages may be kept, and a service keeps its clock though summer time ends between", () => {
  const next = nextEvent(sample(), { event: "x", name: "X", first_day: "2026-11-14", stages: "kept" });
  expect(next.tables.stages?.rows).toHaveLength(9);
  const written = filesOf(next).files["event.toml"] ?? "";
  expect(written).toContain("2026-11-14T10:20:00.000+01:00");
  expect(written).toContain('after = "SS2"');
});

test("an event's id comes from its name and year", () => {
  expect(eventId("Harrow Forest Rally", "2027-05-16")).toBe("harrow-forest-rally-2027");
  expect(eventId("Öde  Höhen / 3 (2027)", "2027-05-16")).toBe("ode-hohen-3-2027");
  expect(eventId("", "")).toBe("");
});
