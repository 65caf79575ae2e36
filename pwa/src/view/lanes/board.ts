/**
 * Where each person's tasks lie under one clock, in percent of its width, of one car or of several that share their
 * people; nobody is at a car while it moves. Pure.
 */

import type { PlanTask } from "../../kit/api";
import { type ShownPlan, tasksOf } from "../../report/plan";

/** A stretch of the clock, in percent of the board. */
export interface Stretch {
  left: number;
  width: number;
}

/** One car's plan on the board's clock; offset_s: when its own clock starts. */
export interface Part {
  plan: ShownPlan;
  offset_s: number;
}

export interface Block extends Stretch {
  task: PlanTask;
  car: string;
}

export interface Lane {
  person: string;
  /** Until when they are not there. */
  away: Stretch | null;
  blocks: Block[];
}

/** A car's own line on the board: when it is worked on, when it moves, and where its time ends. */
export interface CarLane {
  car: string;
  /** From when work can start until it is done. */
  worked: Stretch;
  /** What of that is past its time; null where it is in time. */
  late: Stretch | null;
  moving: (Stretch & { task: PlanTask })[];
  /** Where its time for work ends. */
  end: number;
}

export interface Board {
  from_s: number;
  to_s: number;
  ticks: { s: number; left: number }[];
  cars: CarLane[];
  lanes: Lane[];
}

/** So many ticks stand apart on a phone. */
const MOST_TICKS = 6;
const STEPS_MIN = [1, 2, 5, 10, 15, 30, 60, 120, 240];
/** Room after the last task, so that where the time ends is seen. */
const ROOM_S = 60;

/** While the car is driven in, the board begins with now; no earlier than this. */
const DRIVEN_IN_S = -900;

/**
 * Return the board. zero_ms: the instant of the clock's zero, so that ticks are round minutes of the clock; now_s: now on
 * that clock, negative while the car is being driven in; ticks: so many at the most.
 */
export function boardOf(
  parts: Part[],
  people: string[],
  zero_ms: number | null = null,
  now_s: number | null = null,
  ticks = MOST_TICKS,
): Board {
  const starts = parts.flatMap(({ plan, offset_s }) => plan.tasks.map((task) => offset_s + task.start_s));
  const ends = parts.flatMap(({ plan, offset_s }) => plan.tasks.map((task) => offset_s + task.end_s));
  const planned_s = Math.min(...parts.map(({ plan, offset_s }) => offset_s + plan.now_s));
  const before = now_s !== null && now_s > DRIVEN_IN_S ? now_s : planned_s;
  const from_s = Math.floor(Math.min(planned_s, before, ...starts) / 60) * 60;
  const done_s = Math.max(...parts.map(({ plan, offset_s }) => offset_s + plan.work_s));
  const to_s = Math.max(done_s + ROOM_S, ...ends, from_s + ROOM_S);
  const at = (s: number) => ((s - from_s) / (to_s - from_s)) * 100;
  const stretch = (start_s: number, end_s: number) => ({ left: at(start_s), width: at(end_s) - at(start_s) });
  return {
    from_s,
    to_s,
    ticks: ticksOf(from_s, to_s, zero_ms ?? 0, ticks).map((s) => ({ s, left: at(s) })),
    cars: parts.map((part) => carLane(part, from_s, at, stretch)),
    lanes: people.map((person) => {
      const there_s = thereFrom(parts, person);
      const tasks = parts.flatMap(({ plan, offset_s }) =>
        tasksOf(plan, person).map((task) => ({
          task,
          car: plan.car,
          start_s: offset_s + task.start_s,
          end_s: offset_s + task.end_s,
        })),
      );
      return {
        person,
        // Nobody is away while the car is still driven in, before the clock's zero.
        away: there_s > Math.max(0, from_s) ? stretch(from_s, Math.min(there_s, to_s)) : null,
        blocks: tasks
          .sort((a, b) => a.start_s - b.start_s)
          .map(({ task, car, start_s, end_s }) => ({ task, car, ...stretch(start_s, end_s) })),
      };
    }),
  };
}

function carLane(
  { plan, offset_s }: Part,
  from_s: number,
  at: (s: number) => number,
  stretch: (start_s: number, end_s: number) => Stretch,
): CarLane {
  const end_s = offset_s + plan.work_s;
  const finish_s = offset_s + Math.max(0, ...plan.tasks.map((task) => task.end_s));
  return {
    car: plan.car,
    worked: stretch(Math.max(from_s, offset_s), Math.max(from_s, offset_s, finish_s)),
    late: finish_s > end_s ? stretch(end_s, finish_s) : null,
    moving: movingOf(plan.tasks).map((task) => ({ task, ...stretch(offset_s + task.start_s, offset_s + task.end_s) })),
    end: at(end_s),
  };
}

/** From when somebody is there, on the board's clock: of several cars each plan says it on the clock of all. */
export const thereFrom = (parts: Part[], person: string): number =>
  Math.max(
    0,
    ...parts.flatMap(({ plan }) => plan.people.filter((one) => one.person === person)).map((one) => one.from_s),
  );

/** Whether the car goes up or down with a task: by the step's name, since a plan says no more. */
export const movesCar = ({ kind, step }: Pick<PlanTask, "kind" | "step">): boolean =>
  (kind === "open" || kind === "close") && step !== null && step.endsWith("on-stands");

const movingOf = (tasks: PlanTask[]) => tasks.filter((task) => movesCar(task) && task.end_s > task.start_s);

// Round minutes of the clock, as close together as there is room for.
function ticksOf(from_s: number, to_s: number, zero_ms: number, most: number): number[] {
  const zero_min = Math.floor(zero_ms / 60_000);
  const [first, last] = [zero_min + Math.ceil(from_s / 60), zero_min + Math.floor(to_s / 60)];
  const step = STEPS_MIN.find((one) => Math.floor((last - first) / one) + 1 <= most) ?? 480;
  const ticks = [];
  for (let minute = Math.ceil(first / step) * step; minute <= last; minute += step)
    ticks.push((minute - zero_min) * 60);
  return ticks;
}

/** Return where a time lies on the board in percent, or null where it is not on it. */
export function leftOf({ from_s, to_s }: Pick<Board, "from_s" | "to_s">, s: number): number | null {
  return s < from_s || s > to_s ? null : ((s - from_s) / (to_s - from_s)) * 100;
}
