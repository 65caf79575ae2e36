import { expect, test } from "vitest";
import type { Reading } from "../src/report/readings";
import { tyreKm } from "../src/report/tyres";

const read = (place: string, value: string, entry: string): Reading =>
  ({ reading: "tyre number", place, value, at: "", entry, person: "p" }) as unknown as Reading;
const KM: Record<string, number> = { a: 0, b: 23.6, c: 40 };
const km_at = ({ entry }: Reading) => KM[entry] ?? 0;

test("a number stands at its corner until another is read there", () => {
  const readings = [read("front-left", "7", "a"), read("front-left", "9", "b"), read("rear-left", "7", "c")];
  // 7: 23.6 km in front, then 10 of the 50 behind; 9: 26.4 km in front.
  expect(tyreKm(readings, km_at, 50)).toEqual([
    { tyre: "9", place: "front-left", km: 26.4 },
    { tyre: "7", place: "rear-left", km: 33.6 },
  ]);
});

test("a tyre that was taken off keeps its km; the same number read again counts once", () => {
  const readings = [read("front-right", "3", "a"), read("front-right", "3", "b"), read("front-right", "4", "c")];
  expect(tyreKm(readings, km_at, 40)).toEqual([
    { tyre: "4", place: "front-right", km: 0 },
    { tyre: "3", place: null, km: 40 },
  ]);
});

test("nothing was read: there is nothing to say", () => {
  expect(tyreKm([], km_at, 12)).toEqual([]);
});
