/** The people of a team's plan, and what each does over all cars. Pure. */

import type { PlanTask } from "../../kit/api";
import { tasksOf } from "../../report/plan";
import type { CarPart } from "../../report/team_plan";

/** Return the people of all cars, the one who uses the phone first where they are among them. */
export function peopleOfAll(parts: { plan: CarPart }[], first: string | null): string[] {
  const all = [...new Set(parts.flatMap(({ plan }) => plan.people.map((one) => one.person)))];
  return first !== null && all.includes(first) ? [first, ...all.filter((one) => one !== first)] : all;
}

/** A task of one of the cars, on the clock of all. */
export interface TaskAt {
  task: PlanTask;
  car: string;
  start_s: number;
}

/** Return a person's tasks at all cars, in the order of the clock. */
export function tasksOfAll(parts: { plan: CarPart }[], person: string): TaskAt[] {
  const all = parts.flatMap(({ plan }) =>
    tasksOf(plan, person).map((task) => ({ task, car: plan.car, start_s: plan.offset_s + task.start_s })),
  );
  return all.sort((a, b) => a.start_s - b.start_s);
}
