/** Words of what stands round every screen: app bar, hold strip, tabs. */

import { worded } from "../../kit/language";

export const shell = worded("shell", {
  back: "Back",
  handOver: "Hand-over",
  live: "live",
  fetched: (n: number) => `${n} fetched …`,
  noSignal: "no signal",
  serverError: "server error",
  service: (service: string) => `Service ${service}`,
  out: (clock: string) => `out ${clock}`,
  left: (min: number) => `${min} min left`,
  over: (min: number) => `${min} min past due`,
  after: (stage: string) => `After ${stage}`,
  next: (service: string, clock: string) => `Service ${service} at ${clock}`,
  me: (name: string) => `${name}: me and this phone`,
  strip: {
    label: "What the log holds of this car",
    hold: "HOLD",
    nothing: "Nothing open",
    nothingRest: "in the log holds it",
    unknown: "Not known yet",
    inspect: (n: number) => `${n} to inspect`,
    failed: (n: number) => `${n} failed`,
    official: (n: number) => `${n} for an official`,
    review: (n: number) => `${n} to review`,
    why: "Why",
    whyLabel: "Why: what the log holds of this car",
  },
});
