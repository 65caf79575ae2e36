/** What a place shows, in words and addresses. Pure. */

import type { EventSetup, Job } from "../../kit/api";
import { componentLabel, personName } from "../labels";
import { places as words } from "../words/places";

/** Two minutes, 45 s: in the unit that people say, to a quarter of a minute below one. */
export function timeText(minutes: number): string {
  if (minutes < 0.9) return words.seconds(Math.max(1, Math.round(minutes * 4)) * 15);
  const whole = Math.round(minutes);
  return whole <= 90 ? words.minutes(whole) : words.hours(Math.floor(whole / 60), whole % 60);
}

/** The address of a place. */
export const placeHref = (zone: string) => `#/place/${encodeURIComponent(zone)}`;

/** The address of its inspection: of all that waits there, or of one part alone. */
export const inspectHref = (zone: string, component?: string) =>
  `${placeHref(zone)}/inspect${component === undefined ? "" : `/${encodeURIComponent(component)}`}`;

/** "Hub, Lower arm, Brake hose". */
export const partsText = (jobs: Job[], setup: EventSetup) =>
  jobs.map((job) => componentLabel(setup.car_map, job.component)).join(", ");

export const namesText = (people: string[], setup: EventSetup) =>
  people.map((person) => personName(setup, person)).join(", ");

/** Who may sign an inspection. */
export const inspectorsOf = (setup: EventSetup) =>
  setup.people.filter((one) => one.roles.includes("inspector")).map((one) => one.person);
