/** How many open reports each zone has, for the marks in the drawing. Pure. */

import type { Job } from "../../kit/api";
import { grouped } from "../../kit/grouped";
import type { AppState } from "../../flow/model";
import { reportsOf, type EffectiveReport } from "../../report/effective";

const jobIn = ({ job }: { job: Job }) => job;
const isDone = (job: Job) => job.state === "finished" || job.state === "accepted";

/** A report is open until all its jobs in the queue are done; one that the queue does not know yet is open. */
function isOpen(report: EffectiveReport, jobs: Map<string, Job[]>): boolean {
  if (report.withdrawn || report.body.where === "hand-over") return false;
  const own = jobs.get(report.report) ?? [];
  return own.length === 0 || own.some((job) => !isDone(job));
}

/** By zone; without a queue (on the road) every report that stands counts. */
export function openByZone(state: AppState, car: string): Record<string, number> {
  const jobs = state.queue?.answer.car === car ? state.queue.answer.jobs : [];
  const named = jobs.flatMap((job) => job.reports.map((report) => ({ job, report })));
  const by_report = new Map([...grouped(named, (one) => one.report)].map(([name, all]) => [name, all.map(jobIn)]));
  const counted: Record<string, number> = {};
  for (const report of reportsOf(state.entries, car)) {
    const { zone } = report.body;
    if (zone !== null && isOpen(report, by_report)) counted[zone] = (counted[zone] ?? 0) + 1;
  }
  return counted;
}

/** The places at which something holds the car; none where nothing may be said of its release. */
export const heldZones = ({ release }: AppState): string[] =>
  release?.shown === "hold" ? release.reasons.flatMap(({ job }) => job?.split("/")[0] ?? []) : [];
