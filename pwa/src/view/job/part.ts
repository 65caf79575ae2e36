/** What each form on a job's page is given, and who may have done work on the car. */

import type { EntryOf, EventSetup, Job } from "../../kit/api";
import { msOf } from "../../kit/time";
import type { CarScreen } from "../screen";

export interface JobPart extends CarScreen {
  job: Job;
  /** The form's work is kept, or the form is closed. */
  onDone: () => void;
}

/** Timed from the first start on this phone; null without a start, since then nobody timed it. */
export function minutesSince([first]: EntryOf<"job.started">[], now: number): number | null {
  const began_ms = first ? msOf(first.at) : null;
  return began_ms === null ? null : Math.max(1, Math.round((now - began_ms) / 60_000));
}

/** Who may have done work on the car. */
export const hands = (setup: EventSetup) =>
  setup.people.filter((one) => !(one.roles.length === 1 && one.roles[0] === "manager"));
