/** What one version says by itself: direct, bare and knock-on, one condition per key. */

import type { Condition, ReportBody } from "../kit/api";
import { bodyOf } from "../report/body";
import { placed } from "../report/placing";
import type { Version } from "../report/versions";
import { type CarMap, jobKey, splitKey } from "./car_map";

export type How = "direct" | "bare" | "knock-on" | "retracted" | "failed";

/** A condition that a version gives a key, and how it came to. */
export interface Said {
  key: string;
  condition: Condition;
  how: How;
}

const UNKNOWN = "unknown";
const PRECEDENCE: readonly How[] = ["direct", "bare", "knock-on"];

/** Return what a version says, by key: direct before knock-on, the worse condition first. A withdrawn one says nothing. */
export function saidBy(version: Version, car_map: CarMap): Map<string, Said> {
  const said = new Map<string, Said>();
  if (version.kind === "report.withdrawn") return said;
  for (const item of all(bodyOf(version), car_map)) {
    const known = said.get(item.key);
    if (!known || isBefore(item, known, car_map)) said.set(item.key, item);
  }
  return said;
}

/**
 * Say whether what a version says is a finding.
 *
 * Of a hand-over only what is safety-critical counts, and nothing bare: the rest was there before, a baseline for
 * costs and no job.
 */
export function counts(version: Version, item: Said, car_map: CarMap): boolean {
  if (bodyOf(version).where !== "hand-over") return true;
  return item.how !== "bare" && car_map.safetyCritical(...splitKey(item.key));
}

function* all(body: ReportBody, car_map: CarMap): Iterable<Said> {
  const zone = body.zone || UNKNOWN;
  for (const item of direct(body, zone, car_map)) {
    yield item;
    yield* knockOn(item, zone, car_map);
  }
  if (body.findings.length + body.symptoms.length === 0) {
    yield { key: jobKey(zone, UNKNOWN), condition: UNKNOWN, how: "bare" };
  }
}

function* direct(body: ReportBody, zone: string, car_map: CarMap): Iterable<Said> {
  for (const { component, condition } of body.findings) {
    yield { key: jobKey(zone, component), condition: condition ?? UNKNOWN, how: "direct" };
  }
  for (const symptom of body.symptoms) {
    const checks = car_map.checksOf(symptom, zone);
    // A symptom is never lost: what the map does not know, or has nothing to check for here, is the zone's unknown.
    for (const key of checks.length > 0 ? checks : [jobKey(zone, UNKNOWN)]) {
      yield { key, condition: UNKNOWN, how: "direct" };
    }
  }
}

/** Yield what a direct finding makes suspect; `zone` is the version's, for `here` and `across`. */
function* knockOn({ key: source, condition }: Said, zone: string, car_map: CarMap): Iterable<Said> {
  const [own_zone, component] = splitKey(source);
  for (const rule of car_map.knock_on_by_component.get(component) ?? []) {
    if (!rule.conditions.includes(condition)) continue;
    const same_zone = rule.same_zone.map((other) => jobKey(own_zone, other));
    const also = rule.also.flatMap((key) => placed(key, zone, car_map));
    for (const key of [...same_zone, ...also]) {
      if (car_map.lists(...splitKey(key))) yield { key, condition: UNKNOWN, how: "knock-on" };
    }
  }
}

function isBefore(item: Said, known: Said, car_map: CarMap): boolean {
  const how = PRECEDENCE.indexOf(item.how) - PRECEDENCE.indexOf(known.how);
  if (how !== 0) return how < 0;
  const [, component] = splitKey(item.key);
  return car_map.severity(component, item.condition) > car_map.severity(component, known.condition);
}
