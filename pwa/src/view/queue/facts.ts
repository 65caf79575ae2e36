/** What the rows of the queue say of each job beside the queue's own answer. Pure. */

import type { Entry, Job } from "../../kit/api";
import { reportsOf } from "../../report/effective";
import { counted } from "../job/history";
import type { CarScreen } from "../screen";
import type { JobRowProps } from "./JobRow";
import { reasonsOf, reportedAgain } from "./why";

export interface Facts {
  /** The car's entries that count. */
  valid: Entry[];
  of(job: Job): Omit<JobRowProps, "current" | "place">;
}

/** Return what is known of a car's jobs; its entries are gone through once for all of them. */
export function factsOf({ state, setup, car }: Pick<CarScreen, "state" | "setup" | "car">): Facts {
  const reports = reportsOf(state.entries, car);
  const valid = counted(
    state.entries.map((held) => held.entry),
    car,
    setup,
  );
  // Who looks for the first time has seen nothing: what is everywhere marks nothing.
  const all = state.queue?.answer.jobs.length ?? 0;
  const fresh = new Set(state.fresh_jobs.length < all ? state.fresh_jobs : []);
  const of: Facts["of"] = (job) => ({
    job,
    setup,
    valid,
    fresh: fresh.has(job.job),
    reasons: reasonsOf(job, reports, setup),
    again: reportedAgain(job, state.entries, setup),
  });
  return { valid, of };
}
