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
const LEAST_PX_PER_MIN = 24;
const MOST_PX_PER_MIN = 64;
const STEP_PX = 4;

/** Return the board: the scale grows until no lane's labels run on far below the clock. */
export function boardOf(plan: ShownPlan, people: string[]): Board {
  const starts = plan.tasks.map((task) => task.start_s);
  const from_s = Math.floor(Math.min(plan.now_s, ...starts) / 60) * 60;
  const to_s = Math.max(plan.work_s, ...plan.tasks.map((task) => task.end_s), from_s + 60);
  let scale = LEAST_PX_PER_MIN;
  let lanes = lanesAt(scale);
  while (bottomOf(lanes) > yAt(to_s, scale) && scale < MOST_PX_PER_MIN) {
    scale += STEP_PX;
    lanes = lanesAt(scale);
  }
  return {
    height: Math.max(bottomOf(lanes), yAt(to_s, scale)) + PAD_PX,
    from_s,
    ticks: ticksOf(from_s, to_s).map((s) => ({ s, y: yAt(s, scale), strong: s % 300 === 0 })),
    lanes,
    end_y: yAt(plan.work_s, scale),
  };

  function yAt(s: number, px_per_min: number): number {
    return PAD_PX + ((s - from_s) / 60) * px_per_min;
  }

  function lanesAt(px_per_min: number): Lane[] {
    return people.map((person) => {
      const there = plan.people.find((one) => one.person === person)?.from_s ?? 0;
      const away_height = there > from_s ? yAt(there, px_per_min) : 0;
      const bars = tasksOf(plan, person).map((task) => ({
        task,
        bar_y: yAt(task.start_s, px_per_min),
        bar_height: ((task.end_s - task.start_s) / 60) * px_per_min,
      }));
      return { person, away_height, blocks: labelled(bars) };
    });
  }
}

function labelled(bars: Pick<Block, "task" | "bar_y" | "bar_height">[]): Block[] {
  let free = 0;
  return bars.map((bar) => {
    const label_y = Math.max(bar.bar_y, free);
    const label_height = Math.max(LABEL_PX, bar.bar_y + bar.bar_height - GAP_PX - label_y);
    free = label_y + label_height + GAP_PX;
    return { ...bar, label_y, label_height };
  });
}

const bottomOf = (lanes: Lane[]) =>
  Math.max(0, ...lanes.flatMap((lane) => lane.blocks.map((one) => one.label_y + one.label_height)));

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
