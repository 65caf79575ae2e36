/**
 * The versions of one report: which replace which, which are heads, what lies below each.
 *
 * B replaces A if B names A in `replaces`. Below A lies all that replaces it, directly or not. A is a head if
 * everything below it also has A below it, so that a ring of versions that replace each other stays.
 */

import { byCodePoint, sortedSet } from "../kit/code_points";
import { belowOf, type Version } from "../report/versions";

/** All versions of one report, by id ascending, with `replaces` and `below` among those that are here. */
export class Versions {
  readonly by_id: ReadonlyMap<string, Version>;
  readonly replaces: ReadonlyMap<string, string[]>;
  readonly below: ReadonlyMap<string, ReadonlySet<string>>;

  constructor(entries: Iterable<Version>) {
    const sorted = [...entries].sort((a, b) => byCodePoint(a.id, b.id));
    this.by_id = new Map(sorted.map((entry) => [entry.id, entry]));
    this.replaces = new Map(sorted.map((entry) => [entry.id, replacesOf(entry, this.by_id)]));
    this.below = belowOf([...this.by_id.values()]);
  }

  /** The ids of the versions that stand, ascending. */
  get heads(): string[] {
    return [...this.by_id.keys()].filter((version) => this.isHead(version));
  }

  /** Say whether nothing but ring mates replaces this version. */
  isHead(version: string): boolean {
    return this.overruling(version).length === 0;
  }

  /** Return the versions below this one that are not its ring mates. */
  overruling(version: string): string[] {
    return [...(this.below.get(version) ?? [])].filter((other) => !this.below.get(other)?.has(version));
  }
}

function replacesOf(entry: Version, by_id: ReadonlyMap<string, Version>): string[] {
  if (entry.kind === "report.filed") return [];
  return sortedSet((entry.data.replaces ?? []).filter((name) => by_id.has(name)));
}
