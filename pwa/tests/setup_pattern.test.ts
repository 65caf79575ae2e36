/** The sample as a pattern, the package's rate table in a team's own set-up, and what is added while one types. */

import { expect, test } from "vitest";
import { firstBook } from "../src/setup/first_book";
import { withTyped } from "../src/setup/naming";
import { eventAfter, RATE_FILES, VAN_FILE, withFiles } from "../src/setup/pattern";
import { specOf } from "../src/setup/specs";
import { type Cells, type Table, tableOf } from "../src/setup/table";
import { sampleFiles } from "./setup_files";

const WISH = { event: "first-2027", name: "First", first_day: "2027-06-12", stages: "kept" } as const;
const BOSS = { person: "p-boss", name: "Boss" };

test("the package's rate table comes in beside what a team has, and the van's stock by itself", () => {
  const own = firstBook(WISH, BOSS);
  const rated = withFiles(own, sampleFiles(), RATE_FILES);
  expect(rated.tables.operations?.rows.length).toBeGreaterThan(600);
  expect(rated.tables.rates?.rows[0]?.cells.labour_per_hour).toBe("58");
  expect(rated.tables.people).toEqual(own.tables.people);
  expect(rated.tables.van?.rows).toEqual([]);
  const stocked = withFiles(rated, sampleFiles(), VAN_FILE);
  expect(stocked.tables.van?.rows.length).toBeGreaterThan(90);
  expect(stocked.tables.operations).toBe(rated.tables.operations);
  expect(stocked.present).toContain("van.csv");
});

test("the sample as a pattern has its days, its people and the manager who makes it, and no agreement", () => {
  const made = eventAfter(sampleFiles(), WISH, BOSS).tables;
  expect(made.event?.rows[0]?.cells).toMatchObject({ event: "first-2027", name: "First" });
  expect(made.people?.rows[0]?.cells).toEqual({ person: "p-boss", name: "Boss", roles: "manager" });
  expect(made.people?.rows.length).toBe(10);
  expect(made.stages?.rows[0]?.cells.start).toBe("2027-06-12 08:18");
  expect(made.services?.rows[0]?.cells.arrive).toBe("2027-06-12 10:20");
  expect(made.agreements?.rows).toEqual([]);
});

const typed = (table: string, rows: Cells[], id: number, column: string, text: string): Table => {
  const spec = specOf(table);
  if (!spec) throw new Error(table);
  const columns = spec.columns.map((one) => one.column);
  return withTyped(tableOf(columns, rows), spec, id, column, text);
};

test("a name gives an id where there is none, that nobody else has", () => {
  const rows: Cells[] = [{ person: "p-zoe" }, {}, { person: "p-own" }];
  expect(typed("people", rows, 1, "name", "Zoë Ångström").rows[1]?.cells.person).toBe("p-zoe-2");
  expect(typed("people", rows, 2, "name", "Zoë").rows[2]?.cells.person).toBe("p-own");
  expect(typed("people", rows, 1, "name", "李").rows[1]?.cells.person ?? "").toBe("");
});

test("a clock alone is of the day of the row above", () => {
  const rows = [{ arrive: "2027-06-12 10:20" }, { arrive: "" }, { arrive: "" }];
  expect(typed("services", rows, 2, "arrive", "8:05").rows[2]?.cells.arrive).toBe("2027-06-12 08:05");
  expect(typed("services", rows, 0, "arrive", "8:05").rows[0]?.cells.arrive).toBe("8:05");
  expect(typed("services", rows, 1, "minutes", "8:05").rows[1]?.cells.minutes).toBe("8:05");
});
