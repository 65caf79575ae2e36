/** Readings: their words, what they start from, the falling reservoir, wear against km, what runs out. */

import { expect, test } from "vitest";
import type { CarMap } from "../src/kit/api";
import { EMPTY_BODY } from "../src/report/body";
import { datedOf } from "../src/report/dated";
import { stageKm } from "../src/report/driven";
import {
  kindOf,
  lastReading,
  newReading,
  type ReadingKind,
  READINGS,
  readingsOf,
  steppedValue,
} from "../src/report/readings";
import { hasFallen, reportOfFall } from "../src/report/reservoir";
import { type Point, runOf, wearOf } from "../src/report/wear";
import { CORNERS } from "../src/report/walk_list";
import { asLast, keyOf, newReadings, reportFor, stepped, with_ } from "../src/view/readings/taken";
import { AT_MS, CAR, entry, setup } from "./making";

const at = (minute: number) => ({ at: `2026-05-16T10:${String(minute).padStart(2, "0")}:00+02:00` });

test("every reading has a unit or is a word, and a place each", () => {
  const names = READINGS.map((one) => one.reading);
  expect(new Set(names).size).toBe(names.length);
  for (const { unit, input, places } of READINGS as readonly ReadingKind[]) {
    expect(unit !== "" || input.how !== "stepped").toBe(true);
    expect(places.length).toBeGreaterThan(0);
  }
  expect(newReading(kindOf("brake pad"), "front-left", 9.5)).toEqual({
    reading: "brake pad",
    value: 9.5,
    unit: "mm",
    place: "front-left",
  });
  expect(newReading(kindOf("peak water temperature"), null, 93)).toEqual({
    reading: "peak water temperature",
    value: 93,
    unit: "°C",
  });
});

test("a step goes from the last value; the first of all shows where it starts; what was added starts at nothing", () => {
  const pad = kindOf("brake pad").input as never;
  const oil = kindOf("oil added").input as never;
  expect(steppedValue(pad, null, -0.5)).toBe(10);
  expect(steppedValue(pad, 9.5, -0.5)).toBe(9);
  expect(steppedValue(pad, 0.2, -1)).toBe(0);
  expect(steppedValue(kindOf("tyre pressure").input as never, 2.1, 0.05)).toBe(2.15);
  expect(steppedValue(oil, null, 0.1)).toBe(0.1);
});

test("the figures of a hand-over walk are readings, too", () => {
  const walk = entry(
    "handover.signed",
    {
      walk: "out",
      odometer_km: 18342,
      pads: [{ place: "front-left", mm: "11.5" }],
      fluids: [{ fluid: "brake-fluid", level: "full" }],
    },
    at(1),
  );
  const later = entry("reading.taken", { reading: "brake pad", value: 11, unit: "mm", place: "front-left" }, at(2));
  const readings = readingsOf([later, walk], CAR);
  expect(lastReading(readings, "brake pad", "front-left")?.value).toBe(11);
  expect(lastReading(readings, "odometer", null)?.value).toBe(18342);
  expect(lastReading(readings, "brake reservoir", "engine-bay")?.value).toBe("full");
  expect(readingsOf([walk], "42")).toEqual([]);
});

test("only what was touched is written; all as last time writes the last values again", () => {
  const said = CORNERS.map((place, n) =>
    entry("reading.taken", { reading: "tyre pressure", value: 2 + n / 10, unit: "bar", place }, at(n)),
  );
  const readings = readingsOf(said, CAR);
  expect(newReadings({})).toEqual([]);
  const pressure = kindOf("tyre pressure");
  const all = asLast(stepped({}, readings, pressure, "front-left", 0.1), readings, pressure);
  expect(newReadings(all).map((one) => [one.place, one.value])).toEqual([
    ["front-left", 2.1],
    ["front-right", 2.1],
    ["rear-left", 2.2],
    ["rear-right", 2.3],
  ]);
  const number = kindOf("tyre number");
  expect(newReadings(with_(with_({}, number, "front-left", " G7 "), number, "rear-left", ""))).toEqual([
    { reading: "tyre number", value: "G7", place: "front-left" },
  ]);
});

test("a reservoir falls against the last reading; low with none before counts as a fall", () => {
  expect(hasFallen("full", "between")).toBe(true);
  expect(hasFallen("low", "empty")).toBe(true);
  expect(hasFallen("low", "low")).toBe(false);
  expect(hasFallen("low", "full")).toBe(false);
  expect(hasFallen(null, "between")).toBe(false);
  expect(hasFallen(null, "low")).toBe(true);
});

const map = (zones: Record<string, string[]>, brake: string[]): CarMap =>
  ({
    ...setup().car_map,
    zones: Object.fromEntries(Object.entries(zones).map(([zone, components]) => [zone, { components }])),
    components: Object.fromEntries(brake.map((name) => [name, { group: "brake" }])),
  }) as unknown as CarMap;

test("the report names the part that holds the fluid, as the car map calls it, to be looked at", () => {
  const own = map({ bay: ["radiator", "master-cylinders-and-reservoir"] }, []);
  expect(reportOfFall(EMPTY_BODY, own, "n")).toMatchObject({
    zone: "bay",
    findings: [{ component: "master-cylinders-and-reservoir", condition: "unknown" }],
    note: "n",
  });
  const other = map({ cabin: ["master-cylinder"] }, ["master-cylinder"]);
  expect(reportOfFall(EMPTY_BODY, other, "").findings[0]?.component).toBe("master-cylinder");
  expect(reportOfFall(EMPTY_BODY, map({}, []), "")).toMatchObject({ zone: "engine-bay", findings: [] });
});

test("the report says from what to what, and where the car was", () => {
  const before = entry("reading.taken", { reading: "brake reservoir", value: "full", place: "engine-bay" }, at(1));
  const entered = entry("service.entered", { service: "B", official_time: "13:00" });
  const taken = { [keyOf("brake reservoir", "engine-bay")]: "low" };
  const entries = [before, entered];
  const report = reportFor(taken, readingsOf(entries, CAR), entries, CAR, setup(), AT_MS);
  expect(report).toMatchObject({ where: "service", stage: "SS4" });
  expect(report?.note).toContain("fell from full to low, read at service B");
  const same = { [keyOf("brake reservoir", "engine-bay")]: "full" };
  expect(reportFor(same, readingsOf(entries, CAR), entries, CAR, setup(), AT_MS)).toBeNull();
});

const points = (...pairs: [km: number, mm: number][]): Point[] => pairs.map(([km, mm]) => ({ km, mm, entry: `${km}` }));

test("wear by hand: 2 mm in 80 km are 2.5 mm in 100 km; from 8 mm to 3 mm are 200 km", () => {
  const [one] = wearOf("brake pad", { "front-left": points([0, 10], [40, 9], [80, 8]) });
  expect(one).toEqual({ place: "front-left", mm: 8, per_100km: 2.5, left_km: 200, below_limit: false, jump: null });
});

test("fresh pads start again, a rate needs km, and the limit is said", () => {
  expect(runOf(points([0, 5], [40, 4], [60, 10], [100, 9])).map((one) => one.mm)).toEqual([10, 9]);
  expect(wearOf("brake pad", { "rear-left": points([10, 9], [12, 8.9]) })[0]?.per_100km).toBeNull();
  expect(wearOf("tread", { "rear-left": points([0, 4], [50, 1.6]) })[0]).toMatchObject({
    below_limit: true,
    left_km: 0,
  });
});

test("a jump well beyond the usual is no wear, and does not count in the rate", () => {
  const usual = { "front-right": points([0, 10], [40, 9], [80, 8]), "rear-left": points([0, 10], [40, 9]) };
  const wear = wearOf("brake pad", { ...usual, "front-left": points([0, 10], [40, 9], [50, 5]) });
  expect(wear.find((one) => one.place === "front-left")).toMatchObject({ jump: { mm: 4, km: 10 }, per_100km: 2.5 });
  expect(wear.filter((one) => one.jump)).toHaveLength(1);
  // All four wear as fast on a rough loop: that is what is usual there.
  const rough = Object.fromEntries(CORNERS.map((place) => [place, points([0, 10], [40, 6], [80, 2.5])]));
  expect(wearOf("brake pad", rough).filter((one) => one.jump)).toEqual([]);
});

test("stage km are those of the stages up to the last that was seen, or lies before a service", () => {
  const seen = entry("stage.nothing_seen", { stage: "SS1", how: "from-seat" }, at(1));
  const first = entry("reading.taken", { reading: "tread", value: 6 }, at(2));
  const left = entry("service.left", { service: "B", official_time: "10:30" }, at(30));
  const hit = entry("report.filed", { stage: "SS5", where: "stage", zone: "roof" }, at(50));
  const before = entry("report.filed", { stage: "SS6", where: "hand-over", zone: "roof" }, at(51));
  const second = entry("reading.taken", { reading: "tread", value: 5 }, at(40));
  const third = entry("reading.taken", { reading: "tread", value: 5 }, at(59));
  const all = [third, before, hit, left, second, first, seen];
  // Each stage of the set-up is 10 km; service B comes after SS4.
  expect([first, second, third].map((one) => stageKm(all, setup(), one))).toEqual([10, 40, 50]);
});

test("what runs out: past, before the event ends, within 30 days, later; a seal alone has no day", () => {
  const item = (name: string, expires: string | null, seal = "") => ({
    car: CAR,
    item: name,
    place: "",
    expires,
    seal,
  });
  const dated = [
    item("later", "2026-07-01"),
    item("seal", null, "K-118"),
    item("soon", "2026-06-14"),
    item("last day", "2026-05-15"),
    item("past", "2026-05-14"),
    { ...item("other car", "2020-01-01"), car: "42" },
  ];
  // Services of the set-up are on 16 May; it is 15 May, late in the evening there.
  const now_ms = Date.parse("2026-05-15T23:30:00+02:00");
  const found = datedOf(setup({ dated }), CAR, now_ms).map(({ item, state }) => [item, state]);
  expect(found).toEqual([
    ["past", "expired"],
    ["last day", "during"],
    ["soon", "soon"],
    ["later", "later"],
    ["seal", "none"],
  ]);
});
