/** Where the car is in the day: in which service, and when it is due out. */

import type { Entry, EntryOf, EventSetup } from "../kit/api";
import { msOf, officialMs } from "../kit/time";
import { bodyOf } from "./body";
import { ofKind } from "./lists";
import { byTime } from "./order";
import { headsIn } from "./heads";
import { countedOf } from "./counted";

/** The service that the car is in. */
export interface CurrentService {
  service: string;
  entered: EntryOf<"service.entered">;
  /** The real time in, Unix ms: the officials' clock where it was written down, else the phone's. */
  in_ms: number;
  /** in_ms + the service's minutes; null for a service that the itinerary does not list. */
  due_out_ms: number | null;
}

/**
 * Return the service that the car is in, or null: one entered, not left, and nothing says that the car went on
 * (a later service of the itinerary entered or left, a stage after it reported or seen).
 */
export function currentService(entries: Entry[], car: string, setup: EventSetup | null): CurrentService | null {
  const valid = countedOf(entries, car, setup);
  const entered = lastEntered(valid, setup);
  if (!entered || hasGoneOn(entered, valid, setup)) return null;
  return { service: entered.data.service, entered, ...times(entered, setup) };
}

/** Return the last `service.entered` of a car that still counts, by the itinerary, then by clock; or null. */
export function lastServiceEntered(
  entries: Entry[],
  car: string,
  setup: EventSetup | null,
): EntryOf<"service.entered"> | null {
  return lastEntered(countedOf(entries, car, setup), setup);
}

/** Return the instant that a `service.entered` or `service.left` names, Unix ms. */
export function officialOf(entry: EntryOf<"service.entered"> | EntryOf<"service.left">): number {
  return officialMs(entry.data.official_time ?? entry.at, entry.at) ?? msOf(entry.at) ?? 0;
}

function lastEntered(valid: Entry[], setup: EventSetup | null): EntryOf<"service.entered"> | null {
  const entered = [...ofKind(valid, "service.entered")];
  const place = (entry: EntryOf<"service.entered">) => serviceIndex(entry.data.service, setup);
  return entered.sort((a, b) => place(a) - place(b) || byTime(a, b)).at(-1) ?? null;
}

function serviceIndex(service: string, setup: EventSetup | null): number {
  return setup?.services.findIndex((one) => one.service === service) ?? -1;
}

function hasGoneOn(entered: EntryOf<"service.entered">, valid: Entry[], setup: EventSetup | null): boolean {
  const place = serviceIndex(entered.data.service, setup);
  const left = ofKind(valid, "service.left");
  return left.some((entry) => hasLeft(entry, entered, setup)) || (place >= 0 && hasRunOn(place, valid, setup));
}

function hasLeft(left: EntryOf<"service.left">, entered: EntryOf<"service.entered">, setup: EventSetup | null) {
  if (left.data.service === entered.data.service) return !isBefore(left, entered);
  const place = serviceIndex(entered.data.service, setup);
  return place >= 0 && serviceIndex(left.data.service, setup) > place;
}

// A service may be entered again after a mis-tap out: only a later "left" counts. Both times are compared on the
// officials' clock, since two phones' own clocks may differ by more than the car was in.
function isBefore(left: EntryOf<"service.left">, entered: EntryOf<"service.entered">): boolean {
  return officialOf(left) < officialOf(entered);
}

function hasRunOn(place: number, valid: Entry[], setup: EventSetup | null): boolean {
  const order = setup?.stages.map((one) => one.stage) ?? [];
  const after = setup?.services[place]?.after;
  const last = after ? order.indexOf(after) : -1;
  return stagesSeen(valid).some((stage) => order.indexOf(stage) > last);
}

function stagesSeen(valid: Entry[]): string[] {
  const bodies = headsIn(valid).map(bodyOf);
  const reported = bodies.flatMap((body) => (body.where === "stage" && body.stage ? [body.stage] : []));
  return reported.concat(ofKind(valid, "stage.nothing_seen").map((entry) => entry.data.stage));
}

function times(entered: EntryOf<"service.entered">, setup: EventSetup | null) {
  const in_ms = officialOf(entered);
  const service = setup?.services.find((one) => one.service === entered.data.service);
  return { in_ms, due_out_ms: service ? in_ms + service.minutes * 60_000 : null };
}
