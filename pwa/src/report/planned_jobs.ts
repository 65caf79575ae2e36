/** What a plan says of each job of the queue: who has it, from when. Pure. */

import type { PlanTask } from "../kit/api";
import { jobsOf } from "./plan";

/** Who works on a job from when on; where nobody does, who inspects it. */
export type PlannedJob = Pick<PlanTask, "people" | "start_s">;

/** Return the jobs of a plan, each with the first of its tasks; work goes before inspection. */
export function plannedJobs(tasks: readonly PlanTask[]): Map<string, PlannedJob> {
  const found = new Map<string, PlannedJob>();
  for (const kind of ["work", "inspect"]) {
    const inOrder = tasks.filter((task) => task.kind === kind).sort((a, b) => a.start_s - b.start_s);
    for (const task of inOrder) for (const job of jobsOf(task)) if (!found.has(job)) found.set(job, task);
  }
  return found;
}
