/** What a crew on the road may see: where an event forbids advice, nothing that service told it. */

import type { EventSetup, Role } from "../kit/api";
import type { LocalEntry } from "./local_entry";
import { remembered } from "../kit/remembered";
import { currentService } from "./service";

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
  const entries = input.entries.map((held) => held.entry);
  const current = currentService(entries, input.car, input.setup);
  if (!current || current.due_out_ms === null || !input.setup) return false;
  const limit_ms = input.setup.regulations.late_limit_minutes * 60_000;
  return input.now_ms <= current.due_out_ms + limit_ms;
}

/** Return the entries that a person may be shown: without others' work and decisions where advice may not be shown. */
export function entriesShown(input: RoadInput): LocalEntry[] {
  return mayShowAdvice(input) ? input.entries : withoutAdvice(input.entries, input.person);
}

const withoutAdvice = remembered((entries: LocalEntry[], person: string) =>
  entries.filter((held) => held.entry.person === person || !isAdvice(held)),
);

/** Say whether somebody works on the car or for it, and not only in it. */
export const isWorking = (roles: Role[]): boolean => roles.some((role) => role !== "driver" && role !== "co-driver");

function isOnlyCrew(roles: Role[]): boolean {
  return roles.length > 0 && roles.every((role) => role === "driver" || role === "co-driver");
}

function isAdvice({ entry }: LocalEntry): boolean {
  return /^(job|task|inspection|cost)\./.test(entry.kind) || entry.kind === "car.released";
}
