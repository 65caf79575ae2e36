/** Whether this phone is the one that calls for help: its person says that the car does not drive. */

import type { Entry, EventSetup } from "../kit/api";
import { keptFilter } from "../kit/growing";
import { msOf } from "../kit/time";
import { bodyOf } from "./body";
import { idOf, ofKind } from "./lists";
import { headsIn } from "./heads";
import { countedOf } from "./counted";

/** For so long a car that was said not to drive is taken to stand there still. Common practice, no source. */
export const STANDS_MS = 6 * 3_600_000;

const sayingNo = keptFilter((entry: Entry) => "drives" in entry.data && bodyOf(entry).drives === "no", idOf);

/**
 * Say whether a phone should spare its battery: the last report of its own person about this car says that it does
 * not drive, not longer than STANDS_MS ago, and the car was in no service since.
 */
export function isStopped(
  entries: Entry[],
  person: string,
  car: string,
  setup: EventSetup | null,
  now_ms: number,
): boolean {
  // Asked at each drawing: mostly nobody said so, and which versions stand need not be gone through.
  if (!sayingNo(entries).some((entry) => entry.person === person && entry.car === car)) return false;
  const valid = countedOf(entries, car, setup);
  const own = headsIn(valid).filter((head) => head.person === person);
  const last = own.sort((a, b) => (msOf(a.at) ?? 0) - (msOf(b.at) ?? 0)).at(-1);
  if (!last || last.kind === "report.withdrawn" || bodyOf(last).drives !== "no") return false;
  const at_ms = msOf(last.at) ?? 0;
  const back = ofKind(valid, "service.entered").some((entry) => (msOf(entry.at) ?? 0) > at_ms);
  return !back && now_ms - at_ms < STANDS_MS;
}
