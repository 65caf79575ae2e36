/** What the rows of the queue say of each job beside the queue's own answer. Pure. */

import type { Entry, EventSetup, Job } from "../../kit/api";
import { remembered } from "../../kit/remembered";
import { reportsOf } from "../../report/effective";
import { entriesOf } from "../../report/lists";
import type { LocalEntry } from "../../report/local_entry";
import { counted } from "../job/history";
import type { CarScreen } from "../screen";
import type { JobRowProps } from "./JobRow";
import { plannedHere, type Share, sharesOf } from "./shares";
import { reportedAgain, whereOf } from "./why";

export interface Facts {
  /** The car's entries that count. */
  valid: Entry[];
  /** How much of it is in the plan of the service to come; none without a plan. */
  shares: Share[];
  of(job: Job): Omit<JobRowProps, "current" | "place">;
}

const validOf = remembered((entries: LocalEntry[], car: string, setup: EventSetup) =>
  counted(entriesOf(entries), car, setup),
);

/** Return what is known of a car's jobs; its entries are gone through once for all of them. */
export function factsOf(props: CarScreen): Facts {
  const { state, setup, car } = props;
  const reports = reportsOf(state.entries, car);
  const valid = validOf(state.entries, car, setup);
  // Who looks for the first time has seen nothing: what is everywhere marks nothing.
  const fresh = new Set(state.has_looked ? state.fresh_jobs : []);
  const planned = plannedHere(props);
  const of: Facts["of"] = (job) => ({
    job,
    setup,
    valid,
    fresh: fresh.has(job.job),
    where: whereOf(job, reports, setup),
    again: reportedAgain(job, state.entries, setup),
    planned: planned && (planned.get(job.job)?.people ?? []),
  });
  return { valid, shares: planned ? sharesOf(state.queue?.answer.jobs ?? [], planned) : [], of };
}
