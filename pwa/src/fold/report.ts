/** A report as it stands: its heads and the findings that it puts on jobs. */

import type { Condition } from "../kit/api";
import { sortedSet } from "../kit/code_points";
import { bodyOf } from "../report/body";
import type { Version } from "../report/versions";
import { type CarMap, splitKey } from "./car_map";
import type { Event } from "./event";
import { counts, type How, type Said, saidBy } from "./said";
import { Versions } from "./versions";

/**
 * That an entry names a job in a condition.
 *
 * covered_by: the entries that a cover may name to cover this finding: its own, and older versions that said the same
 * key in the same condition, step by step down to it.
 */
export interface Finding {
  entry: string;
  key: string;
  condition: Condition;
  how: How;
  report: string;
  stage: string | null;
  photos: string[];
  two_versions: boolean;
  covered_by: string[];
}

type SaidByVersion = ReadonlyMap<string, ReadonlyMap<string, Said>>;

/**
 * Return the findings of one report from all its versions, in any order.
 *
 * Heads give what they say. A safety-critical finding of an older version stays, in condition `unknown`, until a version
 * that overrules it settles it: safety is sticky.
 */
export function findingsOf(entries: Iterable<Version>, car_map: CarMap, event: Event): Finding[] {
  const versions = new Versions(entries);
  const said = new Map([...versions.by_id].map(([name, entry]) => [name, saidBy(entry, car_map)]));
  const counted = new Map([...versions.by_id].map(([name, entry]) => [name, countedOf(entry, said, car_map)]));
  const heads = new Set(versions.heads);
  return [...versions.by_id].flatMap(([name, entry]) => {
    const items = [...(counted.get(name)?.values() ?? [])];
    const settled = heads.has(name) ? null : settledIn(entry, versions, counted, event);
    const kept = settled ? items.filter((item) => isSticky(item, car_map) && !settled(item)).map(retracted) : items;
    return kept.map((item) => findingOf(entry, item, versions, said, heads.size > 1));
  });
}

/** What of a version counts, by key; what does not count names nothing. */
function countedOf(entry: Version, said: SaidByVersion, car_map: CarMap): ReadonlyMap<string, Said> {
  return new Map([...(said.get(entry.id) ?? [])].filter(([, item]) => counts(entry, item, car_map)));
}

const isSticky = (item: Said, car_map: CarMap) => car_map.safetyCritical(...splitKey(item.key));

const retracted = ({ key }: Said): Said => ({ key, condition: "unknown", how: "retracted" });

/** Return what says whether versions that overrule this one take something that it says away. */
function settledIn(entry: Version, versions: Versions, counted: SaidByVersion, event: Event): (item: Said) => boolean {
  const overruling = versions.overruling(entry.id);
  const authors = overruling.flatMap((other) => versions.by_id.get(other)?.person ?? []);
  // The word of the same person or of an inspector is enough for what was only guessed at.
  const own = authors.some((person) => person === entry.person || event.hasRole(person, "inspector"));
  const naming = ({ key }: Said) => overruling.flatMap((other) => counted.get(other)?.get(key) ?? []);
  return (item) =>
    item.how === "direct" ? naming(item).some(({ how }) => how === "direct") : own || naming(item).length > 0;
}

function findingOf(
  entry: Version,
  item: Said,
  versions: Versions,
  said: SaidByVersion,
  two_versions: boolean,
): Finding {
  const { stage, photos } = bodyOf(entry);
  return {
    entry: entry.id,
    ...item,
    report: entry.subject ?? "",
    stage,
    photos: sortedSet(photos),
    two_versions,
    covered_by: sameSaidBefore(entry.id, item.key, versions, said),
  };
}

/** Return the version and the older ones from which a cover of `key` passes down to it. */
function sameSaidBefore(name: string, key: string, versions: Versions, said: SaidByVersion): string[] {
  const condition = said.get(name)?.get(key)?.condition;
  const seen = new Set([name]);
  // A set that grows while it is walked through: each version found is looked behind in its turn.
  for (const version of seen) {
    for (const older of versions.replaces.get(version) ?? []) {
      if (said.get(older)?.get(key)?.condition === condition) seen.add(older);
    }
  }
  return sortedSet(seen);
}
