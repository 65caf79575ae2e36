/** What one version says by itself: direct, bare and knock-on, one condition per key. */

import type { Condition, ReportBody } from "../kit/api";
import { bodyOf } from "../report/body";
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
  const zone = body.zone ?? UNKNOWN;
  for (const { component, condition: seen } of body.findings) {
    const condition = seen ?? UNKNOWN;
    yield { key: jobKey(zone, component), condition, how: "direct" };
    yield* knockOn(zone, component, condition, car_map);
  }
  for (const symptom of body.symptoms) {
    for (const key of car_map.symptoms.get(symptom)?.checks ?? [jobKey(zone, UNKNOWN)]) {
      yield { key, condition: UNKNOWN, how: "direct" };
      yield* knockOn(...splitKey(key), UNKNOWN, car_map);
    }
  }
  if (body.findings.length + body.symptoms.length === 0) {
    yield { key: jobKey(zone, UNKNOWN), condition: UNKNOWN, how: "bare" };
  }
}

function* knockOn(zone: string, component: string, condition: Condition, car_map: CarMap): Iterable<Said> {
  for (const rule of car_map.knock_on_by_component.get(component) ?? []) {
    if (!rule.conditions.includes(condition)) continue;
    const same_zone = rule.same_zone.map((other) => jobKey(zone, other));
    for (const key of [...same_zone, ...rule.also]) {
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
