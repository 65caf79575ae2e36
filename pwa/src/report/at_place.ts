/** All that is open at one place of the car: what is repaired, what is inspected together, what an official must see. Pure. */

import type { Entry, Job } from "../kit/api";
import { isUnrepaired, needsOf } from "./passing";

/** The jobs of a place, each in the queue's order. */
export interface AtPlace {
  /** To be repaired, and what no inspection holds. */
  repair: Job[];
  /** Waits for an inspector and for no repair: one page of checks, one signature. */
  inspect: Job[];
  /** Parts of the cage: their inspection is the official's. */
  cage: Job[];
  /** Neither to be repaired nor inspected any more. */
  done: Job[];
}

const OVER = new Set<Job["state"]>(["finished", "accepted"]);

/** Say whether an inspector has to sign the job. */
export const waitsForInspector = (job: Job) => job.safety_critical && job.inspection !== "passed";

/** Return the jobs of a zone by what is to be done there; `valid`: the car's entries that stand. */
export function atPlace(zone: string, jobs: Job[], valid: Entry[]): AtPlace {
  const sorted: AtPlace = { repair: [], inspect: [], cage: [], done: [] };
  for (const job of jobs.filter((one) => one.zone === zone)) sorted[kindOf(job, valid)].push(job);
  return sorted;
}

function kindOf(job: Job, valid: Entry[]): keyof AtPlace {
  if (!waitsForInspector(job)) return OVER.has(job.state) ? "done" : "repair";
  if (job.group === "cage") return "cage";
  const has_failed = job.inspection === "failed" && isUnrepaired(job);
  return has_failed || needsOf(job, valid) === "repair" ? "repair" : "inspect";
}

/** The checks of a job's last failed inspection that were not OK, as they were signed; none where it did not fail. */
export function failedChecks(job: Job, valid: Entry[]): { checks: string[]; entry: Entry } | null {
  const left = new Set(job.uncovered);
  const failed = valid.filter((one) => left.has(one.id) && one.kind.startsWith("inspection.")).at(-1);
  if (job.inspection !== "failed" || !failed) return null;
  const rows = failed.kind === "inspection.failed" || failed.kind === "inspection.passed" ? failed.data.checks : [];
  return { checks: (rows ?? []).filter((row) => row.ok === false).map(({ check }) => check), entry: failed };
}
