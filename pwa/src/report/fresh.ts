/** What is new in the queue since this person looked. */

import type { Queue } from "../kit/api";

/** What a person saw of a queue when looking: the findings and what was uncovered, by job. */
export type Looked = Record<string, string[]>;

/** Return what there is to be seen of a queue now. */
export function lookOf(queue: Queue): Looked {
  return Object.fromEntries(queue.jobs.map((job) => [job.job, [...job.findings, ...job.uncovered]]));
}

/** Return the keys of the jobs with an entry that was not there at the last look; all of them before any look. */
export function freshJobs(queue: Queue, looked: Looked | null): string[] {
  const isFresh = (job: Queue["jobs"][number]) => {
    const seen = new Set(looked?.[job.job] ?? []);
    return [...job.findings, ...job.uncovered].some((id) => !seen.has(id));
  };
  return queue.jobs.filter(isFresh).map((job) => job.job);
}
