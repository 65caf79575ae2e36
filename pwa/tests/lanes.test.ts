/** Everybody under one clock: bars true to time, the moments in which the car moves, ticks that have room. */

import { expect, test } from "vitest";
import { boardOf, leftOf, movesCar } from "../src/view/lanes/board";
import type { ShownPlan } from "../src/report/plan";
import { heldPlan, task } from "./plan_made";

const people = ["p-bodo", "p-kasp", "p-odil"];
const { plan } = heldPlan();
const only = (one: ShownPlan) => [{ plan: one, offset_s: 0 }];

test("every bar is as long as its task and stands where it starts, on one scale for all lanes", () => {
  const board = boardOf(only(plan), people);
  const scale = 100 / (board.to_s - board.from_s);
  for (const { blocks } of board.lanes) {
    for (const { task: one, left, width } of blocks) {
      expect(left).toBeCloseTo(leftOf(board, one.start_s) ?? -1, 6);
      expect(width).toBeCloseTo((one.end_s - one.start_s) * scale, 6);
    }
  }
});

test("a task of two people is in both lanes, and in no third", () => {
  const lanes = boardOf(only(plan), people).lanes.map((lane) => lane.blocks.map((one) => one.task.task));
  expect(lanes.map((tasks) => tasks.includes("close car-on-stands"))).toEqual([true, true, false]);
});

test("the car moves while it is lifted and lowered, and at no other step", () => {
  const board = boardOf(only(plan), people);
  const at = (s: number) => leftOf(board, s) ?? -1;
  expect(board.cars[0]?.moving.map((one) => [one.left, one.left + one.width])).toEqual([
    [at(240), at(420)],
    [at(1170), at(1290)].map((one) => expect.closeTo(one, 6)),
  ]);
  expect(plan.tasks.filter(movesCar).map((one) => one.task)).toEqual(["open car-on-stands", "close car-on-stands"]);
  const quick = plan.tasks.map((one) => (movesCar(one) ? { ...one, end_s: one.start_s } : one));
  expect(boardOf(only({ ...plan, tasks: quick }), people).cars[0]?.moving).toEqual([]);
});

test("the clock begins with the minute of the rest, and now lies on it", () => {
  const board = boardOf(only({ ...plan, now_s: 260 }), people);
  expect(board.from_s).toBe(240);
  expect(leftOf(board, 240)).toBe(0);
  expect(leftOf(board, 100)).toBeNull();
  expect(leftOf(board, 9999)).toBeNull();
});

test("while the car is driven in the board begins with now, a day before it does not", () => {
  const whole = { ...plan, now_s: 0 };
  expect(boardOf(only(whole), people, null, -90).from_s).toBe(-120);
  expect(leftOf(boardOf(only(whole), people, null, -90), -90)).toBeGreaterThan(0);
  expect(boardOf(only(whole), people, null, 600).from_s).toBe(0);
  expect(boardOf(only(whole), people, null, -86_400).from_s).toBe(0);
});

test("the end of the time for work is on the board, with room after it, and so is what ends later", () => {
  const board = boardOf(only(plan), people);
  expect(board.cars[0]?.end).toBeGreaterThan(90);
  expect(board.cars[0]?.end).toBeLessThan(100);
  const late = task({ task: "late", kind: "check", start_s: 1500, end_s: 1800, people: ["p-bodo"] });
  expect(boardOf(only({ ...plan, tasks: [late] }), people).to_s).toBe(1800);
});

test("who comes later has the time before it marked", () => {
  const board = boardOf(only(plan), people);
  const [bodo, , odil] = board.lanes;
  expect(bodo?.away).toBeNull();
  expect(odil?.away).toEqual({ left: 0, width: leftOf(board, 600) });
});

test("while the car is driven in nobody is away who is there from the start", () => {
  const board = boardOf(only(plan), people, null, -120);
  expect(board.from_s).toBe(-120);
  expect(board.lanes.map((lane) => lane.away !== null)).toEqual([false, false, true]);
});

test.each([15, 23, 45, 90, 480])("in %i minutes there are a few ticks, at round minutes of the clock", (minutes) => {
  const zero_ms = Date.parse("2026-05-16T13:02:00Z");
  const ticks = boardOf(only({ ...plan, now_s: 0, work_s: minutes * 60, tasks: [] }), people, zero_ms).ticks;
  expect(ticks.length).toBeGreaterThanOrEqual(2);
  expect(ticks.length).toBeLessThanOrEqual(6);
  const clock = ticks.map((one) => (zero_ms / 60_000 + one.s / 60) % 1440);
  const step = (clock[1] ?? 0) - (clock[0] ?? 0);
  expect(clock.every((one) => one % step === 0)).toBe(true);
});

test("an empty plan has a board, too", () => {
  const board = boardOf(only({ ...plan, tasks: [] }), people);
  expect(board.lanes.map((lane) => lane.blocks)).toEqual([[], [], []]);
});
