/** What on the car runs out, and the seals: by the days that the set-up gives. Pure. */

import type { EventSetup } from "../kit/api";
import { dayIn, msOf } from "../kit/time";

/** So long before its last day an item is told of. Common practice, no source: long enough to have one sent. */
const SOON_DAYS = 30;
const DAY_MS = 86_400_000;

/** `expired`: its last day is past; `during`: it comes before the event ends; `soon`: within SOON_DAYS; `none`: no day. */
export type DatedState = "expired" | "during" | "soon" | "later" | "none";

export interface DatedItem {
  item: string;
  place: string;
  seal: string;
  /** YYYY-MM-DD, the last day on which it may be used; or null. */
  expires: string | null;
  state: DatedState;
}

/** Return the dated and sealed items of a car, the most pressing first. `now_ms`: today, in the event's time zone. */
export function datedOf(setup: EventSetup, car: string, now_ms: number): DatedItem[] {
  const today = dayIn(setup.timezone, now_ms);
  const end = lastDay(setup, today);
  // A set-up that an older server gave, and this phone still holds, lists none.
  const items = (setup.dated ?? [])
    .filter((one) => one.car === car)
    .map(({ item, place, seal, expires }) => ({ item, place, seal, expires, state: stateOf(expires, today, end) }));
  const rank = (one: DatedItem) => ORDER.indexOf(one.state);
  return items.sort((a, b) => rank(a) - rank(b) || ((a.expires ?? "") < (b.expires ?? "") ? -1 : 1));
}

const ORDER: DatedState[] = ["expired", "during", "soon", "later", "none"];

function stateOf(expires: string | null, today: string, end: string): DatedState {
  if (expires === null) return "none";
  if (expires < today) return "expired";
  if (expires < end) return "during";
  return Date.parse(expires) - Date.parse(today) <= SOON_DAYS * DAY_MS ? "soon" : "later";
}

/** The day of the last service that has a time; today where none has, or where they are all past. */
function lastDay(setup: EventSetup, today: string): string {
  const days = setup.services.flatMap(({ arrive }) => {
    const ms = arrive === null ? null : msOf(arrive);
    return ms === null ? [] : [dayIn(setup.timezone, ms)];
  });
  return [today, ...days].sort().at(-1) as string;
}
