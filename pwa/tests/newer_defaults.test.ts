/** Leaving to the program what an event keeps of release 0.1. */

import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { bookOf, filesOf } from "../src/setup/files";
import { keepsEarlier, withNewer } from "../src/setup/newer_defaults";
import { sampleFiles } from "./setup_files";

const read = (name: string) =>
  readFileSync(new URL(`../../api/shuntbook/defaults/v0.1/${name}`, import.meta.url), "utf8");
const OWN = '\n[[looks]]\ngroup = "brake"\ncheck = "Dry"\n';
const { "car_map.toml": _, ...FILES } = sampleFiles();
const BEGUN = {
  ...FILES,
  "event.toml": FILES["event.toml"] + OWN + read("looks.toml").replaceAll('group = "brake"', 'group = "throttle"'),
  "car_map.toml": read("car_map.toml"),
};
const EARLIER = { car_map: true, looks: ["cage", "throttle"] };

test("the map and the lists go, what the team wrote and what else there is stays", () => {
  const book = bookOf(BEGUN);
  expect(keepsEarlier(book, EARLIER)).toBe(true);
  const { files } = filesOf(withNewer(book, EARLIER), { files: BEGUN, book });
  expect(Object.keys(files).sort()).toEqual(Object.keys(FILES).sort());
  const left = bookOf(files).tables.looks?.rows.map((row) => row.cells.group) ?? [];
  expect(left).toContain("brake");
  expect(left).toContain("steering");
  expect(left).not.toContain("cage");
  expect(left).not.toContain("throttle");
  expect(keepsEarlier(bookOf(files), EARLIER)).toBe(false);
});

test("an event that keeps nothing is offered nothing, and its own map stays", () => {
  const book = bookOf(BEGUN);
  expect(keepsEarlier(book, null)).toBe(false);
  expect(keepsEarlier(book, { car_map: false, looks: [] })).toBe(false);
  const { files } = filesOf(withNewer(book, { car_map: false, looks: ["cage"] }), { files: BEGUN, book });
  expect(files["car_map.toml"]).toBe(BEGUN["car_map.toml"]);
});
