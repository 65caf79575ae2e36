/** Files of a set-up as tables and back: the same meaning, whatever is in them; and faults at their cells. */

import { parse, TomlDate } from "smol-toml";
import { expect, test } from "vitest";
import { faultAt, located, standing, unwritable } from "../src/setup/faults";
import { bookOf, csvOf, csvTable, emptyBook, type Files, filesOf, sentOf } from "../src/setup/files";
import { SPECS, specOf } from "../src/setup/specs";
import { type Book, type Cells, tableOf, withCell, withMoved, withoutRow, withRow } from "../src/setup/table";
import { sampleFiles } from "./setup_files";

/** What a TOML text says, leaving out what says nothing ("" and []); times as instants. */
function meaning(value: unknown): unknown {
  if (value instanceof TomlDate) return value.isDateTime() ? value.getTime() : value.toISOString();
  if (Array.isArray(value)) return value.map(meaning);
  if (typeof value !== "object" || value === null) return value;
  const said = Object.entries(value).filter(([, one]) => one !== "" && !(Array.isArray(one) && one.length === 0));
  return Object.fromEntries(said.map(([key, one]) => [key, meaning(one)]));
}

test("the sample event and the package's car map come back with the same meaning", () => {
  const files = sampleFiles();
  const { files: written } = filesOf(bookOf(files));
  expect(Object.keys(written).sort()).toEqual(Object.keys(files).sort());
  for (const [name, text] of Object.entries(files)) {
    if (name.endsWith(".toml")) expect(meaning(parse(written[name] ?? "")), name).toEqual(meaning(parse(text)));
    else expect(written[name]?.trim(), name).toBe(text.trim());
  }
});

test("a second round changes no byte", () => {
  const once = filesOf(bookOf(sampleFiles())).files;
  expect(filesOf(bookOf(once)).files).toEqual(once);
});

test("what no table shows is kept: a file's own keys, a row's, a value of another kind, a file that is not known", () => {
  const event = `
event = "e"
motto = "dry and fast"
[weather]
rain_mm = 3
[[stages]]
stage = "SS1"
km = 4.5
surface = "gravel"
start = 2026-05-16T08:00:00Z
[[cars]]
car = "41"
label = ["two", "words"]
[tools]
seal = ["paste"]
odd = 7
`;
  const book = bookOf({ "event.toml": event, "notes.txt": "call Ilka" });
  const { files } = filesOf(book);
  expect(meaning(parse(files["event.toml"] ?? ""))).toEqual(meaning(parse(event)));
  expect(files["notes.txt"]).toBe("call Ilka");
});

test("a cell that does not read as its kind is written as it was typed, for the server to name", () => {
  const book = bookOf(sampleFiles());
  const change = (table: string, column: string, text: string) => {
    const before = book.tables[table];
    if (before) book.tables[table] = withCell(before, 0, column, text);
  };
  change("stages", "km", "far");
  change("services", "arrive", "soon");
  change("routine", "must_do", "perhaps");
  const written = parse(filesOf(book).files["event.toml"] ?? "") as Record<string, Cells[]>;
  expect(written.stages?.[0]?.km).toBe("far");
  expect(written.services?.[0]?.arrive).toBe("soon");
  expect(written.routine?.[0]?.must_do).toBe("perhaps");
});

test("a service's time stands in the event's own zone and comes back with its offset, in summer and winter", () => {
  const event = (arrive: string) =>
    `event = "e"\ntimezone = "Europe/Vienna"\n[[services]]\nservice = "A"\nminutes = 30\narrive = ${arrive}\n`;
  const at = (arrive: string) => bookOf({ "event.toml": event(arrive) }).tables.services?.rows[0]?.cells.arrive;
  // Central European time: +01:00 in winter, +02:00 in summer (EU Directive 2000/84/EC).
  expect(at("2026-01-10T10:20:00+01:00")).toBe("2026-01-10 10:20");
  expect(at("2026-06-13T10:20:00+02:00")).toBe("2026-06-13 10:20");
  expect(at("2026-06-13T10:20:30+02:00")).toBe("2026-06-13 10:20:30");
  expect(at("2026-06-13T10:20:00+05:30")).toBe("2026-06-13T10:20:00+05:30");
  for (const time of ["2026-01-10T10:20:00+01:00", "2026-06-13T10:20:30+02:00", "2026-06-13T10:20:00+05:30"]) {
    const written = filesOf(bookOf({ "event.toml": event(time) })).files["event.toml"] ?? "";
    expect(meaning(parse(written))).toEqual(meaning(parse(event(time))));
  }
});

/** A linear congruential generator (Numerical Recipes, from memory): the same tables in every run. */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1664525 + 1013904223) % 2 ** 32;
    return state / 2 ** 32;
  };
}

const PIECES = ["a", "Ö", '"', ",", "\n", "\t", "'", "=", " x", "7", "é", "#", "\\", "[", "1.50", "\r\n"];

function randomBook(seed: number): Book {
  const next = chance(seed);
  const pick = <T>(some: readonly T[]): T => some[Math.floor(next() * some.length)] as T;
  const word = () => Array.from({ length: 1 + Math.floor(next() * 4) }, () => pick(PIECES)).join("");
  const cell: Record<string, () => string> = {
    text: () => word().trim(),
    number: () => pick(["0", "7", "12.75", "-3", "1e3", "far"]),
    flag: () => pick(["true", "false", "maybe"]),
    list: () => pick(["a", "a;b", "x y;z"]),
    numbers: () => pick(["1;2;4", "0.5;1;2", "1;x"]),
    quantities: () => pick(["rim*2", "rim*1;hose*2.5"]),
    day: () => pick(["2027-05-31", "soon"]),
    time: () => pick(["2026-06-13 10:20", "later"]),
  };
  const book = emptyBook();
  for (const spec of SPECS) {
    const size = spec.keys.length === 0 ? 1 : Math.floor(next() * 5);
    const rows = Array.from({ length: size }, (_, n) => {
      const cells: Cells = {};
      for (const { column, kind } of spec.columns) {
        const text = next() < 0.7 ? (cell[kind]?.() ?? "") : "";
        if (text) cells[column] = text;
      }
      if (spec.keys[0]) cells[spec.keys[0]] = `${spec.table} ${n}`;
      return cells;
    });
    book.tables[spec.table] = tableOf(
      spec.columns.map((one) => one.column),
      rows.filter((cells) => Object.keys(cells).length > 0),
    );
  }
  return book;
}

test("random tables, with quotes, commas, tabs and line breaks in their cells, come back cell by cell", () => {
  for (let seed = 1; seed <= 200; seed++) {
    const book = randomBook(seed);
    const again = bookOf(filesOf(book).files);
    for (const { table, shape } of SPECS) {
      const rows = (one: Book) => one.tables[table]?.rows.map((row) => normal(row.cells)).filter(isFilled) ?? [];
      const wanted = rows(book).filter((cells) => shape !== "values" || Object.keys(cells).length > 0);
      expect(rows(again), `seed ${seed}, ${table}`).toEqual(wanted);
    }
  }
});

const isFilled = (cells: Cells) => Object.keys(cells).length > 0;

/** A number may come back shorter (1e3 as 1000). */
function normal(cells: Cells): Cells {
  const said = Object.entries(cells).filter(([, cell]) => cell !== "");
  return Object.fromEntries(said.map(([column, cell]) => [column, cell === "1e3" ? "1000" : cell]));
}

test("a fault of a CSV row is at its cell though cells before it go over several lines and blank rows are left out", () => {
  const spec = specOf("parts");
  if (!spec) throw new Error("no parts");
  const book = emptyBook();
  const columns = spec.columns.map((one) => one.column);
  book.tables.parts = tableOf(columns, [
    { part: "rim", description: "two\nlines", unit_cost: "1" },
    {},
    { part: "hose", unit_cost: "x" },
  ]);
  const { places, files } = filesOf(book);
  // Lines counted by hand: 1 header, 2-3 rim, 4 hose.
  expect(files["rates/parts.csv"]?.split("\n")[3]).toMatch(/^hose/);
  const fault = { file: "rates/parts.csv", row: 4, column: "unit_cost", what: "'x' is not a number" };
  const [found] = located([fault], book, places);
  expect(found).toMatchObject({ table: "parts", id: 2, column: "unit_cost", cell: "x" });
});

test("faults of TOML are at their cells: arrays by index, tables by name, forms by key", () => {
  const book = bookOf(sampleFiles());
  const { places } = filesOf(book);
  const at = (file: string, column: string, index?: number) =>
    located([{ file, row: 9, column, what: "", index }], book, places)[0];
  expect(at("event.toml", "stages.km", 2)).toMatchObject({ table: "stages", id: 2, column: "km" });
  expect(at("event.toml", "timezone")).toMatchObject({ table: "event", id: 0, column: "timezone" });
  expect(at("event.toml", "regulations.late_limit_minutes", 0)).toMatchObject({ table: "regulations", id: 0 });
  expect(at("event.toml", "tools.tape", 0)).toMatchObject({ table: "tools", id: 1, column: "tools" });
  expect(at("rates/rates.toml", "inspect_minutes_by_group.brake", 0)).toMatchObject({
    table: "inspect_minutes_by_group",
    id: 1,
    column: "minutes",
  });
  expect(at("car_map.toml", "zones.front-right.people", 0)).toMatchObject({ table: "zones", id: 1, column: "people" });
  expect(at("event.toml", "agreements.tyre", 0)).toMatchObject({ table: "agreements", id: 0, column: "" });
  expect(at("event.toml", "agreements.tyre", 7)).toMatchObject({ table: "agreements", id: null, column: "" });
  expect(at("event.toml", "")).toMatchObject({ table: null, id: null });
});

test("a fault goes when its cell is fixed or its row taken out, and stays with its row when rows before it go", () => {
  const book = bookOf(sampleFiles());
  const stages = book.tables.stages;
  if (!stages) throw new Error("no stages");
  book.tables.stages = withCell(stages, 2, "km", "far");
  const faults = located(
    [{ file: "event.toml", row: 1, column: "stages.km", what: "not a number", index: 2 }],
    book,
    filesOf(book).places,
  );
  const row = () => book.tables.stages?.rows.find((one) => one.id === 2);
  book.tables.stages = withoutRow(book.tables.stages, 0);
  expect(standing(faults, book)).toHaveLength(1);
  expect(faultAt(faults, "stages", row() ?? { id: -1, cells: {} }, "km")?.what).toBe("not a number");
  const fixed = { ...book, tables: { ...book.tables, stages: withCell(book.tables.stages, 2, "km", "12") } };
  expect(standing(faults, fixed)).toEqual([]);
  expect(standing(faults, { ...book, tables: { ...book.tables, stages: withoutRow(stages, 2) } })).toEqual([]);
});

test("names that are keys must be there once: said before anything is written", () => {
  const book = emptyBook();
  book.tables.zones = tableOf(["zone", "label"], [{ zone: "roof" }, { zone: "roof" }, { label: "no name" }]);
  expect(unwritable(book).map(({ id, column }) => [id, column])).toEqual([
    [1, "zone"],
    [2, "zone"],
  ]);
});

test("rows keep their ids while others come, go and move; a new row stands after the one named", () => {
  const table = tableOf(["a"], [{ a: "0" }, { a: "1" }, { a: "2" }]);
  const { table: more, id } = withRow(table, 0);
  expect(more.rows.map((row) => row.id)).toEqual([0, 3, 1, 2]);
  expect(id).toBe(3);
  expect(withMoved(more, 2, -1).rows.map((row) => row.id)).toEqual([0, 3, 2, 1]);
  expect(withMoved(more, 0, -1)).toBe(more);
  expect(withCell(more, 1, "a", "1")).toBe(more);
});

test("a CSV file's own columns stay in their order, also one that is not known", () => {
  const spec = specOf("van");
  if (!spec) throw new Error("no van");
  const table = csvTable("loaded,shelf,part\n2,B,rim\n", spec);
  expect(csvOf(table, spec).text).toBe("loaded,shelf,part\n2,B,rim\n");
});

test("a file that says the same stays byte for byte, with its comments; faults in it are on its own lines", () => {
  const files: Files = { ...sampleFiles(), "van.csv": "part,loaded\r\n\r\nrim,2\r\n" };
  const source = { files, book: bookOf(files) };
  expect(filesOf(source.book, source).files).toEqual(files);
  const stages = source.book.tables.stages;
  if (!stages) throw new Error("no stages");
  const book = { ...source.book, tables: { ...source.book.tables, stages: withCell(stages, 0, "km", "1") } };
  const written = filesOf(book, source);
  const { sent } = sentOf(book, source);
  expect(Object.keys(sent.cells)).toEqual(["event.toml"]);
  expect(sent.cells["event.toml"]).toMatchObject({ base: files["event.toml"], rest: "" });
  expect(sent.cells["event.toml"]?.tables.stages?.[0]).toEqual({
    cells: { stage: "SS1", km: "1", start: "2026-06-13 08:18" },
  });
  // A server of 0.1 passes over the cells: what it is sent as text has to be the whole set-up.
  expect(sent.files).toEqual(written.files);
  expect(sentOf(source.book, source).sent).toEqual({ files, cells: {} });
  expect(written.files["rates/rates.toml"]).toBe(files["rates/rates.toml"]);
  expect(written.files["event.toml"]).not.toBe(files["event.toml"]);
  expect(written.places.lines["van.csv"]?.get(3)).toBe(source.book.tables.van?.rows[0]?.id);
});
