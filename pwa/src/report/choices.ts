/** Plans of one service that are at hand, and what another plan would change for people. Pure. */

import type { PlanTask } from "../kit/api";
import { type Choice, type OtherPlan, type ShownPlan, type Standing, tasksOf } from "./plan";

/** Return a plan with another of its choices in its place, and what stood there among the others; itself where it has none. */
export function chosen(plan: ShownPlan, choice: Choice): ShownPlan {
  const wanted = (plan.others ?? []).find((one) => one.choice === choice);
  if (!wanted || plan.choice === choice) return plan;
  return { ...plan, ...wanted, others: choices(plan).filter((one) => one.choice !== choice) };
}

const ORDER: Choice[] = ["on-time", "everything", "on-hold"];

/** Return all plans that are at hand, in an order that stays, the one shown among them. */
export function choices(plan: ShownPlan): OtherPlan[] {
  const { choice, proven, by, finish_s, spare_s, late_min, penalty_s, on_time, tasks, left_out } = plan;
  const shown = { choice, proven, by, finish_s, spare_s, late_min, penalty_s, on_time, tasks, left_out };
  return [shown, ...(plan.others ?? [])].sort((a, b) => ORDER.indexOf(a.choice) - ORDER.indexOf(b.choice));
}

/** Something that another plan would change for somebody. `order`: the person does the same in another order. */
export type Change = { kind: "in" | "out" | "people"; task: PlanTask } | { kind: "order"; person: string };

/** Return what a plan would change of one that people work by; what is done or under way is nobody's change. */
export function changesBetween(before: ShownPlan, after: ShownPlan, standing: Map<string, Standing>): Change[] {
  const isToCome = (task: PlanTask) => (standing.get(task.task)?.state ?? task.state) === "planned";
  const old = new Map(before.tasks.filter(isToCome).map((task) => [task.task, task]));
  const next = new Map(after.tasks.filter(isToCome).map((task) => [task.task, task]));
  const found: Change[] = [];
  for (const task of next.values()) {
    const known = old.get(task.task);
    if (!known && isAnEnd(task)) found.push({ kind: "in", task });
    if (known && !isSame(known.people, task.people)) found.push({ kind: "people", task });
  }
  for (const task of old.values()) if (!next.has(task.task) && isAnEnd(task)) found.push({ kind: "out", task });
  const common = (task: PlanTask) => old.has(task.task) && next.has(task.task);
  for (const { person } of before.people) {
    const names = (plan: ShownPlan) =>
      tasksOf(plan, person)
        .filter(common)
        .map((task) => task.task);
    const [was, is] = [names(before), names(after)];
    const both = was.filter((name) => is.includes(name));
    if (
      !isSameOrder(
        both,
        is.filter((name) => was.includes(name)),
      )
    )
      found.push({ kind: "order", person });
  }
  return found;
}

// Steps and checks come and go with what they are for.
const isAnEnd = ({ kind }: PlanTask) => kind === "work" || kind === "inspect" || kind === "routine";
const isSame = (some: string[], others: string[]) => isSameOrder([...some].sort(), [...others].sort());
const isSameOrder = (some: string[], others: string[]) => some.join("\n") === others.join("\n");
