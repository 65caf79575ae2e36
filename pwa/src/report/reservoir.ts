/** A brake reservoir that falls is a report: the log has the brakes looked at, the reading alone would change nothing. */

import type { CarMap, ReportBody } from "../kit/api";
import { LEVELS, type Level } from "./walk_list";

/**
 * Say whether a reservoir fell. Nothing read before counts as full: a day starts with a filled one. Common practice,
 * no source.
 */
export function hasFallen(before: Level | null, now: Level): boolean {
  const low = LEVELS.indexOf("low");
  if (before === null) return LEVELS.indexOf(now) >= low;
  return LEVELS.indexOf(now) > LEVELS.indexOf(before);
}

const COMPONENT = "master-cylinders-and-reservoir";
const ZONE = "engine-bay";

/**
 * Return the report of a fallen brake reservoir: the part that holds it, to be looked at.
 *
 * No symptom of the car map fits, since a level says nothing of the pedal: a team whose map calls the part otherwise
 * gets its own brake part with "reservoir" or "master" in the name, else the engine bay as a place.
 */
export function reportOfFall(start: ReportBody, map: CarMap, note: string): ReportBody {
  const where = placeIn(map);
  const findings = where ? [{ component: where.component, condition: "unknown" as const }] : [];
  return { ...start, zone: where?.zone ?? ZONE, findings, symptoms: [], cause: "unknown", note };
}

function placeIn(map: CarMap): { zone: string; component: string } | null {
  const pairs = Object.entries(map.zones).flatMap(([zone, { components }]) =>
    components.map((component) => ({ zone, component })),
  );
  const isOwn = ({ component }: { component: string }) =>
    map.components[component]?.group === "brake" && /reservoir|master/.test(component);
  return pairs.find((one) => one.component === COMPONENT) ?? pairs.find(isOwn) ?? null;
}
