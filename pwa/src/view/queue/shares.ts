/** What of the queue is in the plan of the service to come. Pure. */

import type { Job } from "../../kit/api";
import { type PlannedJob, plannedJobs } from "../../report/planned_jobs";
import { type HeldOf, heldOf, serviceToPlan } from "../plan/usePlanning";
import type { CarScreen } from "../screen";
import { sectionOf } from "./sections";

export interface Share {
  part: "must" | "fits" | "not";
  jobs: number;
  /** Mechanic minutes, as expected, without access. */
  minutes: number;
}

type Held = NonNullable<HeldOf["held"]>;
type Planned = ReadonlyMap<string, PlannedJob>;

/** Return the plan that this device holds of the service to come, or null; cheap where it holds none. */
export function planHere(props: CarScreen): Held | null {
  const service = props.state.plans.length > 0 ? serviceToPlan(props) : null;
  return service && heldOf(props, service).held;
}

/** Return who has which job by that plan; null where there is none. */
export function plannedHere(props: CarScreen): Planned | null {
  const held = planHere(props);
  return held && plannedJobs(held.plan.tasks);
}

/** Cut the open jobs into those that must be done and are planned, the others that fit, and those left for later. */
export function sharesOf(jobs: readonly Job[], planned: Planned): Share[] {
  const open = jobs.filter((job) => sectionOf(job) !== "done");
  const parts = (["must", "fits", "not"] as const).map((part) => {
    const there = open.filter((job) => partOf(job, planned) === part);
    const minutes = there.reduce((sum, { estimate }) => sum + estimate.minutes_expected * estimate.mechanics, 0);
    return { part, jobs: there.length, minutes };
  });
  return parts.filter((one) => one.jobs > 0);
}

function partOf(job: Job, planned: Planned): Share["part"] {
  if (!planned.has(job.job)) return "not";
  return sectionOf(job) === "worth" ? "fits" : "must";
}
