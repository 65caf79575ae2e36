/** Lanes: bars true to time, labels that a thumb can hit and that cover no other. */

import { expect, test } from "vitest";
import { boardOf, LABEL_PX, yOf } from "../src/view/plan/lanes";
import { heldPlan, task } from "./plan_made";

const people = ["p-bodo", "p-kasp", "p-odil"];
const { plan } = heldPlan();

test("every bar is as long as its task, on one scale", () => {
  const board = boardOf(plan, people);
  const scales = board.lanes.flatMap((lane) =>
    lane.blocks.map((one) => one.bar_height / (one.task.end_s - one.task.start_s)),
  );
  expect(Math.max(...scales) - Math.min(...scales)).toBeLessThan(1e-9);
  for (const { blocks } of board.lanes) {
    for (const { task: one, bar_y } of blocks) expect(bar_y).toBeCloseTo(yOf(board, one.start_s) ?? -1, 6);
  }
});

test("a task of two people is in both lanes, and in no third", () => {
  const lanes = boardOf(plan, people).lanes.map((lane) => lane.blocks.map((one) => one.task.task));
  expect(lanes.map((tasks) => tasks.includes("close car-on-stands"))).toEqual([true, true, false]);
});

test.each([1, 7, 20, 40])("%i short tasks in a row: labels are tall enough, in order, apart, on the board", (count) => {
  const tasks = Array.from({ length: count }, (_, place) => {
    const start_s = 1380 - 15 * (count - place);
    return task({ task: `t${place}`, kind: "check", start_s, end_s: start_s + 15, people: ["p-bodo"] });
  });
  const board = boardOf({ ...plan, tasks }, people);
  const blocks = board.lanes[0]?.blocks ?? [];
  expect(blocks.map((one) => one.task.task)).toEqual(tasks.map((one) => one.task));
  for (const [place, block] of blocks.entries()) {
    expect(block.label_height).toBeGreaterThanOrEqual(LABEL_PX);
    const before = blocks[place - 1];
    if (before) expect(block.label_y).toBeGreaterThanOrEqual(before.label_y + before.label_height);
    expect(block.label_y).toBeGreaterThanOrEqual(0);
    expect(block.label_y + block.label_height).toBeLessThanOrEqual(board.height);
  }
});

test("the clock begins with the minute of the rest, and now lies on it", () => {
  const board = boardOf({ ...plan, now_s: 260 }, people);
  expect(board.from_s).toBe(240);
  expect(yOf(board, 240)).toBe(board.ticks[0]?.y);
  expect(yOf(board, 100)).toBeNull();
  expect(yOf(board, 9999)).toBeNull();
});

test("who comes later has the time before it marked", () => {
  const [bodo, , odil] = boardOf(plan, people).lanes;
  const board = boardOf(plan, people);
  expect(bodo?.away_height).toBe(0);
  expect(odil?.away_height).toBeCloseTo(yOf(board, 600) ?? -1, 6);
});

test("an empty plan has a board, too", () => {
  const board = boardOf({ ...plan, tasks: [] }, people);
  expect(board.height).toBeGreaterThan(0);
  expect(board.lanes.map((lane) => lane.blocks)).toEqual([[], [], []]);
});

test("every fifth minute of the clock is a strong tick, whenever the car came in", () => {
  const board = boardOf(plan, people, Date.parse("2026-05-16T13:02:00+02:00"));
  expect(board.ticks.filter((tick) => tick.strong).map((tick) => 2 + tick.s / 60)).toEqual([10, 15, 20, 25]);
});
