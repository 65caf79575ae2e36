/** Which services are done, and what was said at each, from the entries of one car. Pure. */

import type { Entry, EntryOf, EventSetup, Service } from "../../kit/api";
import { msOf } from "../../kit/time";
import { isKind } from "../../report/local_entry";
import { byTime } from "../../report/order";
import { withoutVoided } from "../../report/voided";

export interface Visit {
  entered: EntryOf<"service.entered"> | null;
  left: EntryOf<"service.left"> | null;
  released: EntryOf<"car.released"> | null;
}

const lastOf = <E extends Entry>(entries: E[]): E | null => entries.sort(byTime).at(-1) ?? null;

/** What was last said of a service and not undone. */
export function visitOf(entries: Entry[], car: string, setup: EventSetup, service: string): Visit {
  const valid = withoutVoided(
    entries.filter((entry) => entry.car === car),
    setup,
  );
  return {
    entered: lastOf(
      valid.filter((entry) => isKind(entry, "service.entered") && entry.data.service === service),
    ) as Visit["entered"],
    left: lastOf(
      valid.filter((entry) => isKind(entry, "service.left") && entry.data.service === service),
    ) as Visit["left"],
    released: lastOf(
      valid.filter((entry) => isKind(entry, "car.released") && entry.data.service === service),
    ) as Visit["released"],
  };
}

/** The first service after the last one that was entered or left, or null after the last of the event. */
export function nextService(entries: Entry[], car: string, setup: EventSetup): Service | null {
  const places = setup.services.map((one, place) => {
    const visit = visitOf(entries, car, setup, one.service);
    return visit.entered || visit.left ? place : -1;
  });
  return setup.services[Math.max(-1, ...places) + 1] ?? null;
}

/** Who drives, as last said, or null. */
export function driverNow(entries: Entry[], car: string, setup: EventSetup): string | null {
  const valid = withoutVoided(
    entries.filter((entry) => entry.car === car),
    setup,
  );
  const last = lastOf(valid.filter((entry) => isKind(entry, "driver.changed"))) as EntryOf<"driver.changed"> | null;
  return last?.data.driver ?? null;
}

/** Who drove at a time, as was said up to then, or null. */
export function driverAt(entries: Entry[], car: string, setup: EventSetup, at: string): string | null {
  const until = msOf(at) ?? 0;
  return driverNow(
    entries.filter((entry) => (msOf(entry.at) ?? 0) <= until || isKind(entry, "entry.voided")),
    car,
    setup,
  );
}
