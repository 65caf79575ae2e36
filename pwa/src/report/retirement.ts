/** Whether the car has retired, and by when it has to be ready where it restarts. Pure. */

import type { DataOf, Entry, EntryOf, EventSetup } from "../kit/api";
import { msOf } from "../kit/time";
import { isKind } from "./local_entry";
import { byTime } from "./order";
import { withoutVoided } from "./voided";

/** The service that a plan of an overnight job names, as the server calls it. */
export const READY_BY = "ready-by";

type Retired = EntryOf<"car.retired">;
type Restarts = EntryOf<"car.restarts">;

/** What was last said of it: the newest entry of each kind, and how it stands now. */
export interface Retirement {
  retired: Retired | null;
  restarts: Restarts | null;
  /** Stopped: whether it comes back; or it restarts, ready by an instant in Unix ms. */
  now:
    | { state: "retired"; restart: NonNullable<DataOf["car.retired"]["restart"]> }
    | { state: "restarts"; by_ms: number };
}

/**
 * Return how a car that has retired stands, by the newest word; null where it runs: nothing was said, it goes on at
 * once, or it was in a service or on a stage since. A hit on a stage says so only after it had to be ready: the one
 * that stopped it may be logged late.
 */
export function retirementOf(entries: Entry[], car: string, setup: EventSetup | null): Retirement | null {
  const mine = entries.filter((one) => one.car === car && isKind(one, "car.retired", "car.restarts")).sort(byTime);
  const retired = (mine.filter((one) => isKind(one, "car.retired")).at(-1) as Retired | undefined) ?? null;
  const restarts = (mine.filter((one) => isKind(one, "car.restarts")).at(-1) as Restarts | undefined) ?? null;
  const now = stands(retired, restarts);
  const last = mine.at(-1);
  if (!now || !last || hasRun(entries, car, setup, now, since(now, last))) return null;
  return { retired, restarts, now };
}

/** A restart that was said in the same go as the retirement comes after it. */
function stands(retired: Retired | null, restarts: Restarts | null): Retirement["now"] | null {
  if (restarts && (!retired || ms(restarts) >= ms(retired))) {
    const by_ms = msOf(restarts.data.ready_by ?? "");
    return by_ms === null ? null : { state: "restarts", by_ms };
  }
  return retired && { state: "retired", restart: retired.data.restart ?? "unknown" };
}

const ms = (entry: Entry) => msOf(entry.at) ?? 0;

// What the crews log while the car is worked on overnight is no sign that it runs.
const since = (now: Retirement["now"], last: Entry) => (now.state === "restarts" ? now.by_ms : ms(last));

function hasRun(
  entries: Entry[],
  car: string,
  setup: EventSetup | null,
  now: Retirement["now"],
  after_ms: number,
): boolean {
  const isSign = (one: Entry) =>
    RUNS.has(one.kind) || (now.state === "restarts" && isKind(one, "report.filed") && one.data.where === "stage");
  const signs = entries.filter((one) => one.car === car && (isSign(one) || one.kind === "entry.voided"));
  return withoutVoided(signs, setup).some((one) => isSign(one) && ms(one) > after_ms);
}

const RUNS = new Set(["service.entered", "service.left", "stage.nothing_seen"]);
