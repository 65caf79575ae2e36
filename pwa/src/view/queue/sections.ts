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

/** Zones with several plain looks: they can be signed together. */
export function cornerLooks(jobs: Job[]): { zone: string; jobs: Job[] }[] {
  const zones = [...new Set(jobs.filter(isPlainLook).map((job) => job.zone))];
  return zones
    .map((zone) => ({ zone, jobs: jobs.filter((job) => job.zone === zone && isPlainLook(job)) }))
    .filter((look) => look.jobs.length > 1);
}
