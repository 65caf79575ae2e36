/** How far the itinerary's clock says that the car has come: a stage that has not started yet was not driven. */

import type { Entry, EventSetup } from "../kit/api";
import { msOf } from "../kit/time";
import { isKind } from "./local_entry";
import { ofKind } from "./lists";
import { officialOf } from "./service";

/** For so long after the last start the itinerary is in force; what is logged later is work in the shop. */
const OVER_MS = 12 * 60 * 60_000;

/**
 * Return the place of the last stage whose start is over, -1 before the first; null where no stage names its start, and
 * long after the event.
 *
 * The day runs late as a whole: starts are put off by as much as the car was late at its last service. `counted`: the
 * car's entries that stand.
 */
export function lastStarted(counted: Entry[], setup: EventSetup | null, now_ms: number): number | null {
  const starts = (setup?.stages ?? []).map((one) => (one.start ? msOf(one.start) : null));
  if (!setup || starts.every((start) => start === null)) return null;
  const late_ms = lateness(counted, setup);
  const last = Math.max(...starts.map((start) => start ?? 0)) + late_ms;
  if (now_ms > last + OVER_MS) return null;
  return starts.findLastIndex((start) => start !== null && start + late_ms <= now_ms);
}

/** By how much the car came into, or left, its last service after the planned time; 0 before the first. */
function lateness(counted: Entry[], setup: EventSetup): number {
  const taps = [...ofKind(counted, "service.entered"), ...ofKind(counted, "service.left")].sort((one, other) =>
    one.id < other.id ? -1 : 1,
  );
  const known = setup.services.flatMap(({ service, arrive, minutes }) => {
    const planned = arrive === null ? null : msOf(arrive);
    if (planned === null) return [];
    return taps.flatMap((entry) => {
      if (entry.data.service !== service) return [];
      return [officialOf(entry) - planned - (isKind(entry, "service.left") ? minutes * 60_000 : 0)];
    });
  });
  return Math.max(0, known.at(-1) ?? 0);
}
