/** Names of zones, components, symptoms and people as the event's set-up gives them; the bare name where it has none. */

import type { CarMap, CarOf, EventSetup } from "../kit/api";
import { locale } from "../kit/language";
import { ago, clockIn, dayIn, longDay, msOf, weekday } from "../kit/time";
import { common } from "./words/common";

export const zoneLabel = (map: CarMap, zone: string | null): string =>
  zone === null || zone === "unknown" ? common.noZone : common.named(map.zones[zone]?.label ?? zone);

export const componentLabel = (map: CarMap, component: string): string =>
  component === "unknown"
    ? (common.condition.unknown ?? component)
    : common.named(map.components[component]?.label ?? component.replaceAll("-", " "));

export const symptomLabel = (map: CarMap, symptom: string): string =>
  common.named(map.symptoms[symptom]?.label ?? symptom.replaceAll("-", " "));

/** The map's own sentence for a symptom that stops the car, "" where it has none. */
export const stopLabel = (map: CarMap, symptom: string): string => {
  const stop = map.symptoms[symptom]?.stop;
  return typeof stop === "string" ? common.named(stop) : "";
};

export const conditionLabel = (condition: string): string => common.condition[condition] ?? condition;

/** "Front left: Wheel" for "front-left/wheel". */
export function jobLabel(map: CarMap, key: string): string {
  const [zone = "", component = ""] = key.split("/");
  return common.and(zoneLabel(map, zone), componentLabel(map, component));
}

export const personName = (setup: EventSetup, person: string): string =>
  setup.people.find((one) => one.person === person)?.name ?? person;

/** The clock time of an entry or an answer in the event's own zone, whatever zone the phone was in. */
export function timeOf(setup: EventSetup, at: string): string {
  const ms = msOf(at);
  return ms === null ? at : clockIn(setup.timezone, ms);
}

/** "13 June 2026" for "2026-06-13". */
export const dayText = (day: string): string => longDay(locale(), "UTC", Date.parse(day));

/** "07:00"; "Sun, 14 Jun 2026, 07:00" where that is another day than today. */
export function clockOnDay({ timezone }: EventSetup, at_ms: number, now_ms: number): string {
  const clock = clockIn(timezone, at_ms);
  const is_today = dayIn(timezone, at_ms) === dayIn(timezone, now_ms);
  return is_today ? clock : `${weekday(locale(), timezone, at_ms)}, ${clock}`;
}

/** "13:02 (4 min ago)": when the server gave an answer. */
export function heardAt(setup: EventSetup, at: string, now_ms: number): string {
  const ms = msOf(at);
  return ms === null ? at : `${clockIn(setup.timezone, ms)} (${ago(ms, now_ms)})`;
}

/** "Car 41, our own": the number always, the label where it says more. */
export const carLabel = ({ car, label }: CarOf): string =>
  label && !label.includes(car) ? `${common.car(car)}, ${label}` : label || common.car(car);

/** An access step by its name. A way that is "made safe" is called made ready: the app promises nothing. */
export const accessName = (step: string): string => common.access(step);
