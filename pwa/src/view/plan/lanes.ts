/** Where each person's tasks lie on the clock: bars true to time, and beside them labels that a thumb can hit. Pure. */

import type { PlanTask } from "../../kit/api";
import { type ShownPlan, tasksOf } from "../../report/plan";

/** In pixels from the top of a lane. `bar` is true to time; the label is pushed down where short tasks crowd. */
export interface Block {
  task: PlanTask;
  bar_y: number;
  bar_height: number;
  label_y: number;
  label_height: number;
}

export interface Lane {
  person: string;
  /** Until where he is not there. */
  away_height: number;
  blocks: Block[];
}

export interface Board {
  height: number;
  /** Seconds of the plan's clock at the top. */
  from_s: number;
  ticks: { s: number; y: number; strong: boolean }[];
  lanes: Lane[];
  /** Where the time for work ends. */
  end_y: number;
}

export const LABEL_PX = 50;
const GAP_PX = 4;
const PAD_PX = 12;
const LEAST_PX_PER_MIN = 26;
const MOST_PX_PER_MIN = 96;
const STEP_PX = 2;

/**
 * Return the board: its scale is the smallest at which each lane has room for its labels.
 *
 * zero_ms: the instant of the plan's zero, so that every fifth minute of the clock is a strong tick.
 */
export function boardOf(plan: ShownPlan, people: string[], zero_ms: number | null = null): Board {
  const tasks = people.map((person) => tasksOf(plan, person));
  const starts = plan.tasks.map((task) => task.start_s);
  const from_s = Math.floor(Math.min(plan.now_s, ...starts) / 60) * 60;
  const to_s = Math.max(plan.work_s, ...plan.tasks.map((task) => task.end_s), from_s + 60);
  const most = Math.max(0, ...tasks.map((some) => some.length)) * (LABEL_PX + GAP_PX);
  const scale = scaleFor(most, (to_s - from_s) / 60);
  const yAt = (s: number) => PAD_PX + ((s - from_s) / 60) * scale;
  const bottom = Math.max(yAt(to_s), PAD_PX + most);
  const lanes = people.map((person, place) => {
    const there = plan.people.find((one) => one.person === person)?.from_s ?? 0;
    const bars = (tasks[place] ?? []).map((task) => {
      const bar_y = yAt(task.start_s);
      return { task, bar_y, bar_height: yAt(task.end_s) - bar_y };
    });
    return { person, away_height: there > from_s ? yAt(there) : 0, blocks: labelled(bars, bottom) };
  });
  return {
    height: bottom + PAD_PX,
    from_s,
    ticks: ticksOf(from_s, to_s).map((s) => ({ s, y: yAt(s), strong: (minuteOf(zero_ms) + s / 60) % 5 === 0 })),
    lanes,
    end_y: yAt(plan.work_s),
  };
}

const minuteOf = (zero_ms: number | null) => Math.floor((zero_ms ?? 0) / 60_000);

function scaleFor(labels_px: number, minutes: number): number {
  const needed = Math.ceil(labels_px / minutes / STEP_PX) * STEP_PX;
  return Math.min(MOST_PX_PER_MIN, Math.max(LEAST_PX_PER_MIN, needed));
}

// Down first, so that no label covers the one before it; then up again where the last ones would leave the board.
function labelled(bars: Pick<Block, "task" | "bar_y" | "bar_height">[], bottom: number): Block[] {
  const tops: number[] = [];
  for (const { bar_y } of bars) tops.push(Math.max(bar_y, (tops.at(-1) ?? -Infinity) + LABEL_PX + GAP_PX));
  let below = bottom + GAP_PX;
  for (let place = tops.length - 1; place >= 0; place -= 1) {
    tops[place] = Math.min(tops[place] ?? 0, below - GAP_PX - LABEL_PX);
    below = tops[place] ?? 0;
  }
  return bars.map((bar, place) => {
    const label_y = tops[place] ?? bar.bar_y;
    const room = (tops[place + 1] ?? bottom + GAP_PX) - GAP_PX - label_y;
    const wanted = bar.bar_y + bar.bar_height - GAP_PX - label_y;
    return { ...bar, label_y, label_height: Math.max(LABEL_PX, Math.min(room, wanted)) };
  });
}

function ticksOf(from_s: number, to_s: number): number[] {
  const count = Math.floor((to_s - from_s) / 60) + 1;
  return Array.from({ length: count }, (_, place) => from_s + place * 60);
}

/** Return where a time lies on the board, or null where it is not on it. */
export function yOf(board: Board, s: number): number | null {
  const [first, last] = [board.ticks[0], board.ticks.at(-1)];
  if (!first || !last || first === last || s < first.s || s > last.s + 60) return null;
  return first.y + ((s - first.s) / (last.s - first.s)) * (last.y - first.y);
}
