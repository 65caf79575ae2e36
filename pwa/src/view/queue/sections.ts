/** The queue cut into sections, each in the queue's own order. Pure. */

import type { Job } from "../../kit/api";

export type Section = "inspect" | "must" | "worth" | "done";

const isDone = (job: Job) => job.state === "finished" || job.state === "accepted";

/** A repaired part that nobody has looked at yet stays under "inspect first". */
export function sectionOf(job: Job): Section {
  if (job.safety_critical && job.inspection !== "passed") return "inspect";
  if (isDone(job)) return "done";
  return job.must_do ? "must" : "worth";
}

/** A look that any inspector can give: not a cage, which an official must see. */
export const isPlainLook = (job: Job) => sectionOf(job) === "inspect" && job.group !== "cage";
