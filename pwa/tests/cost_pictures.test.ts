/** Where money stands in the pictures of the cost sheet. */

import { describe, expect, test } from "vitest";
import type { Service, Stage } from "../src/kit/api";
import { barsOf, largestRows } from "../src/view/costs/bars";
import { dayLabel } from "../src/view/costs/day";
import { largestOf, stepOf } from "../src/view/costs/hatching";
import { itineraryOf, LEAST, type Row, type StageMoney, wholeUnits } from "../src/view/costs/itinerary";

const STAGES: Stage[] = [9.4, 14.2, 12.75, 9.4, 14.2, 12.75, 10.6, 16.35, 10.6].map((km, place) => ({
  stage: `SS${place + 1}`,
  km,
}));
const service = (name: string, after: string) =>
  ({ service: name, after, kind: "", arrive: null, minutes: 30 }) as Service;
const SERVICES = [service("0", ""), service("A", "SS2"), service("B", "SS9")];
const MONEY: StageMoney[] = [
  { stage: "SS2", estimate: "400.00", actual: "100.00" },
  { stage: null, estimate: "-5.00", actual: "0.00" },
];

const slots = (rows: Row[]) => rows.flatMap((row) => row.slots);

describe("the itinerary", () => {
  test("wide enough, it is one line with widths by km and the rest at the end", () => {
    const rows = itineraryOf(STAGES, SERVICES, MONEY, 1000);
    expect(rows).toHaveLength(1);
    expect(slots(rows).map((slot) => slot.stage)).toEqual([...STAGES.map((one) => one.stage), null]);
    const [first, second] = slots(rows);
    expect((second?.width ?? 0) / (first?.width ?? 1)).toBeCloseTo(14.2 / 9.4);
  });

  test.each([200, 246, 300, 360, 700, 1200])("at %i pixels nothing sticks out and nothing overlaps", (width) => {
    const rows = itineraryOf(STAGES, SERVICES, MONEY, width);
    expect(slots(rows)).toHaveLength(10);
    for (const row of rows) {
      let end = 0;
      for (const slot of row.slots) {
        expect(slot.x).toBeGreaterThanOrEqual(end);
        expect(slot.width).toBeGreaterThanOrEqual(LEAST - 1e-9);
        end = slot.x + slot.width;
      }
      expect(end).toBeLessThanOrEqual(width);
      for (const mark of row.services) expect(mark.x).toBeLessThanOrEqual(width);
    }
  });

  test.each([
    [246, 4],
    [300, 3],
    [600, 2],
    [700, 1],
  ])("at %i pixels it is at most %i lines", (width, most) => {
    expect(itineraryOf(STAGES, SERVICES, MONEY, width).length).toBeLessThanOrEqual(most);
  });

  test("services stand between their stages: before the first, after the second, after the last", () => {
    const [row] = itineraryOf(STAGES, SERVICES, MONEY, 1000);
    const at = (name: string) => row?.services.find((one) => one.service === name)?.x ?? -1;
    const of = (place: number) => row?.slots[place] ?? { x: 0, width: 0 };
    expect(at("0")).toBeLessThan(of(0).x);
    expect(at("A")).toBeGreaterThan(of(1).x + of(1).width);
    expect(at("A")).toBeLessThan(of(2).x);
    expect(at("B")).toBeGreaterThan(of(8).x + of(8).width);
    expect(at("B")).toBeLessThan(of(9).x);
  });

  test("heights go by the largest amount; less than nothing has none", () => {
    const all = slots(itineraryOf(STAGES, SERVICES, MONEY, 1000));
    expect([all[1]?.estimate_share, all[1]?.actual_share]).toEqual([1, 0.25]);
    expect([all[0]?.estimate_share, all[9]?.estimate_share]).toEqual([0, 0]);
  });

  test("a stage that only the money names is drawn after those of the itinerary", () => {
    const money = [...MONEY, { stage: "SS0", estimate: "1.00", actual: "0.00" }];
    expect(
      slots(itineraryOf(STAGES, [], money, 1000))
        .map((slot) => slot.stage)
        .slice(-2),
    ).toEqual(["SS0", null]);
  });

  test("a stage longer than the screen fits, twenty stages too, and none is no drawing", () => {
    const long = itineraryOf(
      [
        { stage: "SS1", km: 2 },
        { stage: "SS2", km: 60 },
      ],
      [],
      [],
      246,
    );
    for (const slot of slots(long)) expect(slot.x + slot.width).toBeLessThanOrEqual(246);
    const many = Array.from({ length: 20 }, (_, place) => ({ stage: `SS${place + 1}`, km: place + 1 }));
    expect(slots(itineraryOf(many, [], [], 246))).toHaveLength(20);
    expect(itineraryOf([], [], [], 246)).toEqual([]);
  });

  test("amounts are in whole units", () => {
    expect(["1084.50", "0.49", "-54.00", "-0.20", "1234567.00"].map(wholeUnits)).toEqual([
      "1,085",
      "0",
      "−54",
      "0",
      "1,234,567",
    ]);
  });
});

describe("hatching", () => {
  test("quarters of the largest, nothing for nothing", () => {
    expect(
      ["0.00", "0.01", "25.00", "25.01", "50.00", "75.00", "75.01", "100.00"].map((one) => stepOf(one, "100.00")),
    ).toEqual([0, 1, 1, 2, 2, 3, 4, 4]);
    expect(stepOf("-3.00", "100.00")).toBe(0);
    expect(stepOf("0.00", "0")).toBe(0);
  });

  test("the largest by number, not by text", () => expect(largestOf(["9.00", "10.00", "-20.00"])).toBe("10.00"));
});

describe("bars", () => {
  const row = (label: string, estimate: string, actual = "0.00") => ({ label, estimate, actual });

  test("the largest are drawn, in the sheet's order", () => {
    const rows = [row("a", "1.00"), row("b", "3.00"), row("c", "2.00"), row("d", "0.00", "9.00")];
    expect(largestRows(rows, 2).map((one) => one.label)).toEqual(["b", "d"]);
    expect(largestRows(rows, 4)).toBe(rows);
  });

  test("lengths go by the longest", () => {
    expect(barsOf([row("a", "50.00", "200.00")])[0]).toMatchObject({ estimate_share: 0.25, actual_share: 1 });
  });
});

test("days read as days", () => {
  // Saturday by the calendar: 13 June 2026.
  expect(dayLabel("2026-06-13")).toBe("Sat, 13 Jun 2026");
  expect(dayLabel("soon")).toBe("soon");
});
