/** A report as it stands: its heads and the findings that it puts on jobs. */

import type { Condition } from "../kit/api";
import { sortedSet } from "../kit/code_points";
import { bodyOf } from "../report/body";
import type { Version } from "../report/versions";
import { type CarMap, splitKey } from "./car_map";
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
 * Heads give what they say. A safety-critical direct finding of an older version stays, in condition `unknown`, unless
 * a version that overrules it names its key directly: safety is sticky.
 */
export function findingsOf(entries: Iterable<Version>, car_map: CarMap): Finding[] {
  const versions = new Versions(entries);
  const said = new Map([...versions.by_id].map(([name, entry]) => [name, saidBy(entry, car_map)]));
  const heads = new Set(versions.heads);
  return [...versions.by_id].flatMap(([name, entry]) => {
    const kept = heads.has(name) ? [...(said.get(name)?.values() ?? [])] : retracted(name, versions, said, car_map);
    const counted = kept.filter((item) => counts(entry, item, car_map));
    return counted.map((item) => findingOf(entry, item, versions, said, heads.size > 1));
  });
}

function retracted(name: string, versions: Versions, said: SaidByVersion, car_map: CarMap): Said[] {
  const overruling = versions.overruling(name);
  const isKept = (item: Said) =>
    item.how === "direct" &&
    car_map.safetyCritical(...splitKey(item.key)) &&
    !overruling.some((other) => said.get(other)?.get(item.key)?.how === "direct");
  const kept = [...(said.get(name)?.values() ?? [])].filter(isKept);
  return kept.map(({ key }) => ({ key, condition: "unknown", how: "retracted" }));
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
