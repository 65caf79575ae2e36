/** F15 and F27: a phone that lost its storage leaves a gap in its device's numbers, one that was copied uses some twice. */

import { expect, test } from "vitest";
import { gapsOf } from "../src/report/gaps";
import { entry } from "./making";

const numbered = (device: string, person: string, ...seqs: number[]) =>
  seqs.map((seq) => ({ ...entry("report.filed", {}, { device, person }), seq }));

test("numbers that nobody holds, by device, with who wrote last on it", () => {
  const entries = [...numbered("d-1", "p-maru", 5, 1, 2), ...numbered("d-2", "p-jo", 1, 2, 3)];
  expect(gapsOf(entries)).toEqual([{ device: "d-1", person: "p-maru", missing: [3, 4], twice: [] }]);
});

test("numbers that two entries have, by device", () => {
  const entries = numbered("d-1", "p-maru", 1, 3, 2, 3, 2, 3);
  expect(gapsOf(entries)).toEqual([{ device: "d-1", person: "p-maru", missing: [], twice: [2, 3] }]);
});

test("nothing to tell of what is whole, or of nothing", () => {
  expect(gapsOf(numbered("d-1", "p-maru", 1, 2, 3))).toEqual([]);
  expect(gapsOf([])).toEqual([]);
});

test("a number out of all bounds does not hang the phone", () => {
  expect(gapsOf(numbered("d-1", "p-maru", 2 ** 53))[0]?.missing).toHaveLength(1000);
});
