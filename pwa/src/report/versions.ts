/** Which versions of a report stand: those that nothing replaces. */

import type { Entry, EntryOf } from "../kit/api";

export type Version = EntryOf<"report.filed"> | EntryOf<"report.amended"> | EntryOf<"report.withdrawn">;

/** Say whether an entry is a version of a report. */
export function isVersion(entry: Entry): entry is Version {
  const { kind } = entry;
  return kind === "report.filed" || kind === "report.amended" || kind === "report.withdrawn";
}

/**
 * Return the heads of one report's versions.
 *
 * A is a head if every version below it also has A below it; so a ring of versions that replace each other
 * stays. `replaces` that names an id of another report, or one not here, counts for nothing.
 */
export function headsOf<V extends Version>(versions: V[]): V[] {
  if (versions.length === 1) return versions;
  const below = belowOf(versions);
  const isHead = (id: string) => [...(below.get(id) ?? [])].every((lower) => below.get(lower)?.has(id));
  return versions.filter((version) => isHead(version.id));
}

/** Return, by id, the ids of all versions that replace it, directly or not. */
export function belowOf(versions: Version[]): Map<string, Set<string>> {
  const replacedBy = new Map<string, string[]>(versions.map((version) => [version.id, []]));
  for (const version of versions) {
    for (const id of replacesOf(version)) replacedBy.get(id)?.push(version.id);
  }
  return new Map(versions.map((version) => [version.id, reach(version.id, replacedBy)]));
}

function replacesOf(version: Version): string[] {
  return version.kind === "report.filed" ? [] : (version.data.replaces ?? []);
}

function reach(start: string, next: Map<string, string[]>): Set<string> {
  const found = new Set<string>();
  const open = [...(next.get(start) ?? [])];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (found.has(id)) continue;
    found.add(id);
    open.push(...(next.get(id) ?? []));
  }
  return found;
}
