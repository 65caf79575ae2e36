/** What a crew on the road may see: where an event forbids advice, nothing that service told it. */

import type { EventSetup, Role } from "../kit/api";
import { keptFilter } from "../kit/growing";
import { remembered } from "../kit/remembered";
import type { LocalEntry } from "./local_entry";
import { entriesOf, idOfHeld } from "./lists";
import { currentService } from "./service";
import { isWithheld } from "./withheld";

export interface RoadInput {
  roles: Role[];
  person: string;
  car: string | null;
  setup: EventSetup | null;
  /** Entries of the event. */
  entries: LocalEntry[];
  now_ms: number;
}

/**
 * Say whether a person may be shown queue, hold and others' advice now.
 *
 * Always, where the event allows advice on the road, or to anybody who is not only driver or co-driver. Else only
 * in a service: entered, not left, and no longer than its minutes and the late limit ago (after which the car has
 * left, tapped or not, or is out of the event).
 */
export function mayShowAdvice(input: RoadInput): boolean {
  if (input.setup?.regulations.advice_on_road || !isOnlyCrew(input.roles)) return true;
  if (!input.car) return false;
  const current = serviceNow(input.entries, input.car, input.setup);
  if (!current || current.due_out_ms === null || !input.setup) return false;
  const limit_ms = input.setup.regulations.late_limit_minutes * 60_000;
  return input.now_ms <= current.due_out_ms + limit_ms;
}

const serviceNow = remembered((entries: LocalEntry[], car: string, setup: EventSetup | null) =>
  currentService(entriesOf(entries), car, setup),
);

/**
 * Return the entries that a person may be shown: without others' work and decisions where advice may not be shown, and
 * without what managers alone see, which others of this phone may have been sent.
 */
export function entriesShown(input: RoadInput): LocalEntry[] {
  const entries = input.roles.includes("manager")
    ? withoutStandIns(input.entries)
    : withoutManagers(JSON.stringify(carsOf(input) ?? null))(input.entries);
  return mayShowAdvice(input) ? entries : withoutAdvice(input.person)(entries);
}

// Of who only drives or co-drives the set-up may name the cars that are shown.
function carsOf({ setup, roles, person }: RoadInput): readonly string[] | undefined {
  const cars = setup?.people.find((one) => one.person === person)?.cars;
  return isOnlyCrew(roles) && cars?.length ? cars : undefined;
}

const withoutStandIns = keptFilter(({ entry }: LocalEntry) => !isWithheld(entry), idOfHeld);

const withoutManagers = remembered((named: string) => {
  const cars = JSON.parse(named) as string[] | null;
  const isShown = ({ entry }: LocalEntry) =>
    !isWithheld(entry) && !/^(cost|charge|statement)\./.test(entry.kind) && (!cars || cars.includes(entry.car));
  return keptFilter(isShown, idOfHeld);
});

/** Return a set-up as a person may be shown it: agreements are for managers. */
export function setupShown(setup: EventSetup | null, roles: Role[]): EventSetup | null {
  return setup && !roles.includes("manager") && setup.agreements ? withoutAgreements(setup) : setup;
}

const withoutAgreements = remembered(({ agreements: _, ...setup }: EventSetup): EventSetup => setup);

const withoutAdvice = remembered((person: string) =>
  keptFilter((held: LocalEntry) => held.entry.person === person || !isAdvice(held), idOfHeld),
);

/** Say whether somebody works on the car or for it, and not only in it. */
export const isWorking = (roles: Role[]): boolean => roles.some((role) => role !== "driver" && role !== "co-driver");

function isOnlyCrew(roles: Role[]): boolean {
  return roles.length > 0 && roles.every((role) => role === "driver" || role === "co-driver");
}

function isAdvice({ entry }: LocalEntry): boolean {
  return /^(job|task|inspection|cost)\./.test(entry.kind) || entry.kind === "car.released";
}
