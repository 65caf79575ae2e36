/** Check lists: what an inspector goes through at a look, by the group of the component. Pure. */

import type { EventSetup, Job } from "../kit/api";

/** The list of components that are in no group of their own. */
export const OTHER = "other";

/** Return the checks of a look at these jobs, each once; a group without a list takes that of the others. */
export function checksOf(jobs: Job[], looks: EventSetup["looks"] | undefined): string[] {
  // A set-up that an older server gave, and this phone still holds, lists none.
  const lists = new Map(Object.entries(looks ?? {}));
  return [...new Set(jobs.flatMap((job) => lists.get(job.group ?? OTHER) ?? lists.get(OTHER) ?? []))];
}
