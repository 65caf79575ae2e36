/** Where each person's tasks lie under one clock, in percent of its width; nobody is at the car while it moves. Pure. */

import type { PlanTask } from "../../kit/api";
import { type ShownPlan, tasksOf } from "../../report/plan";

/** A stretch of the clock, in percent of the board. */
export interface Stretch {
  left: number;
  width: number;
}

export interface Block extends Stretch {
  task: PlanTask;
}

export interface Lane {
  person: string;
  /** Until when they are not there. */
  away: Stretch | null;
  blocks: Block[];
}

export interface Board {
  from_s: number;
  to_s: number;
  ticks: { s: number; left: number }[];
  /** While the car goes up or down. */
  moving: Stretch[];
  lanes: Lane[];
  /** Where the time for work ends. */
  end: number;
}

/** So many ticks stand apart on a phone. */
const MOST_TICKS = 6;
const STEPS_MIN = [1, 2, 5, 10, 15, 30, 60, 120, 240];
/** Room after the last task, so that where the time ends is seen. */
const ROOM_S = 60;

/** While the car is driven in, the board begins with now; no earlier than this. */
const DRIVEN_IN_S = -900;

/**
 * Return the board. zero_ms: the instant of the plan's zero, so that ticks are round minutes of the clock; now_s: now on
 * the plan's clock, negative while the car is being driven in.
 */
export function boardOf(
  plan: ShownPlan,
  people: string[],
  zero_ms: number | null = null,
  now_s: number | null = null,
): Board {
  const starts = plan.tasks.map((task) => task.start_s);
  const ends = plan.tasks.map((task) => task.end_s);
  const before = now_s !== null && now_s > DRIVEN_IN_S ? now_s : plan.now_s;
  const from_s = Math.floor(Math.min(plan.now_s, before, ...starts) / 60) * 60;
  const to_s = Math.max(plan.work_s + ROOM_S, ...ends, from_s + ROOM_S);
  const at = (s: number) => ((s - from_s) / (to_s - from_s)) * 100;
  const stretch = (start_s: number, end_s: number) => ({ left: at(start_s), width: at(end_s) - at(start_s) });
  return {
    from_s,
    to_s,
    ticks: ticksOf(from_s, to_s, zero_ms ?? 0).map((s) => ({ s, left: at(s) })),
    moving: movingOf(plan.tasks).map((task) => stretch(task.start_s, task.end_s)),
    lanes: people.map((person) => {
      const there_s = plan.people.find((one) => one.person === person)?.from_s ?? 0;
      return {
        person,
        away: there_s > from_s ? stretch(from_s, Math.min(there_s, to_s)) : null,
        blocks: tasksOf(plan, person).map((task) => ({ task, ...stretch(task.start_s, task.end_s) })),
      };
    }),
    end: at(plan.work_s),
  };
}

/** Whether the car goes up or down with a task: by the step's name, since a plan says no more. */
export const movesCar = ({ kind, step }: Pick<PlanTask, "kind" | "step">): boolean =>
  (kind === "open" || kind === "close") && step !== null && step.endsWith("on-stands");

const movingOf = (tasks: PlanTask[]) => tasks.filter((task) => movesCar(task) && task.end_s > task.start_s);

// Round minutes of the clock, as close together as there is room for.
function ticksOf(from_s: number, to_s: number, zero_ms: number): number[] {
  const zero_min = Math.floor(zero_ms / 60_000);
  const [first, last] = [zero_min + Math.ceil(from_s / 60), zero_min + Math.floor(to_s / 60)];
  const step = STEPS_MIN.find((one) => Math.floor((last - first) / one) + 1 <= MOST_TICKS) ?? 480;
  const ticks = [];
  for (let minute = Math.ceil(first / step) * step; minute <= last; minute += step)
    ticks.push((minute - zero_min) * 60);
  return ticks;
}

/** Return where a time lies on the board in percent, or null where it is not on it. */
export function leftOf({ from_s, to_s }: Pick<Board, "from_s" | "to_s">, s: number): number | null {
  return s < from_s || s > to_s ? null : ((s - from_s) / (to_s - from_s)) * 100;
}
