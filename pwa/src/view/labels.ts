/** Names of zones, components, symptoms and people as the event's set-up gives them; the bare name where it has none. */

import type { CarMap, EventSetup } from "../kit/api";
import { common } from "./words/common";

export const zoneLabel = (map: CarMap, zone: string | null): string =>
  zone === null || zone === "unknown" ? common.noZone : (map.zones[zone]?.label ?? zone);

export const componentLabel = (map: CarMap, component: string): string =>
  component === "unknown"
    ? (common.condition.unknown ?? component)
    : (map.components[component]?.label ?? component.replaceAll("-", " "));

export const symptomLabel = (map: CarMap, symptom: string): string =>
  map.symptoms[symptom]?.label ?? symptom.replaceAll("-", " ");

export const conditionLabel = (condition: string): string => common.condition[condition] ?? condition;

/** "Front left: Wheel" for "front-left/wheel". */
export function jobLabel(map: CarMap, key: string): string {
  const [zone = "", component = ""] = key.split("/");
  return `${zoneLabel(map, zone)}: ${componentLabel(map, component)}`;
}

export const personName = (setup: EventSetup, person: string): string =>
  setup.people.find((one) => one.person === person)?.name ?? person;
