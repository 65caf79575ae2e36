/** Which services are done, and what was said at each, from the entries of one car. Pure. */

import type { Entry, EntryOf, EventSetup, Service } from "../../kit/api";
import { msOf } from "../../kit/time";
import { isKind } from "../../report/local_entry";
import { ofKind } from "../../report/lists";
import { byTime } from "../../report/order";
import { countedOf } from "../../report/counted";

export interface Visit {
  entered: EntryOf<"service.entered"> | null;
  left: EntryOf<"service.left"> | null;
  released: EntryOf<"car.released"> | null;
}

const lastOf = <E extends Entry>(entries: E[]): E | null => entries.sort(byTime).at(-1) ?? null;

/** What was last said of a service and not undone. */
export function visitOf(entries: Entry[], car: string, setup: EventSetup, service: string): Visit {
  const valid = countedOf(entries, car, setup);
  const isAt = ({ data }: { data: { service: string } }) => data.service === service;
  return {
    entered: lastOf(ofKind(valid, "service.entered").filter(isAt)),
    left: lastOf(ofKind(valid, "service.left").filter(isAt)),
    released: lastOf(ofKind(valid, "car.released").filter(isAt)),
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
  const last = lastOf([...ofKind(countedOf(entries, car, setup), "driver.changed")]);
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
