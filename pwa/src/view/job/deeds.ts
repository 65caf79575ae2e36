/** What can be done about a job, and which of it comes next. Pure. */

import type { Job } from "../../kit/api";

export type Deed = "start" | "stop" | "finish" | "defer" | "inspect" | "add";

export interface Standing {
  job: Job;
  /** Somebody is on it. */
  is_started: boolean;
  /** The car stands where nobody may work on it. */
  is_shut: boolean;
  is_inspector: boolean;
  /** It waits for an inspector, and for no repair. */
  waits: boolean;
}

/** All that can be done, in the order in which it is shown. */
export function deedsOf({ job, is_started }: Standing): Deed[] {
  const work: Deed[] = [is_started ? "stop" : "start"];
  return [...work, "finish", "defer", ...(job.safety_critical ? (["inspect"] as const) : []), "add"];
}

/** The one thing to do next. */
export function primaryOf(standing: Standing): Deed {
  const { job, is_started, is_shut, is_inspector, waits } = standing;
  if (is_started) return "finish";
  if (waits && is_inspector) return "inspect";
  const is_over = job.state === "finished" || job.state === "accepted";
  if (is_over) return "add";
  return is_shut ? "finish" : "start";
}
