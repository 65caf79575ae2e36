/** What people did about one job: its job.* and inspection.* entries, sorted by what they are. */

import type { Finding } from "../fold/report";
import { failed } from "../fold/voids";
import type { DataOf, Entry, EntryOf } from "../kit/api";
import { isKind } from "../report/local_entry";

/** A `job.finished`: what it covers and who repaired (its author, `repairers`, authors of starts it ends). */
export interface Repair {
  id: string;
  covers: ReadonlySet<string>;
  repairers: ReadonlySet<string>;
  temporary: boolean;
}

/** An `inspection.passed` with no check that is false; `ok` are the checks that are ok in one of its rows. */
export interface Pass {
  id: string;
  person: string;
  covers: ReadonlySet<string>;
  ok: ReadonlySet<string>;
  data: DataOf["inspection.passed"];
}

/**
 * The acts on one job. `findings` are its failed inspections, each a finding on the job itself.
 *
 * works: all finished work, the repairs and those that only their own author took back; unended: who started work that
 * no finished work ends.
 */
export interface Acts {
  repairs: Repair[];
  works: Repair[];
  unended: ReadonlySet<string>;
  passes: Pass[];
  findings: Finding[];
  deferred: ReadonlySet<string>;
  under_way: boolean;
}

/**
 * Sort the entries about one job that stand; they come by id, voided ones left out by the caller.
 *
 * undone: starts and finishes that only their own author took back: no acts any more, but still work.
 */
export function actsOn(mine: Entry[], undone: Entry[]): Acts {
  const work = [...mine, ...undone];
  const starts = new Map(work.filter((entry) => entry.kind === "job.started").map((one) => [one.id, one.person]));
  const finishes = work.filter((entry) => isKind(entry, "job.finished"));
  const finished = new Set(finishes.flatMap((entry) => entry.data.ends ?? []));
  const works = finishes.map((entry) => repairOf(entry, starts));
  const standing = new Set(mine.map(({ id }) => id));
  const stops = mine.filter((entry) => isKind(entry, "job.stopped", "job.finished"));
  const ended = new Set(stops.flatMap((entry) => entry.data.ends ?? []));
  const deferrals = mine.filter((entry) => isKind(entry, "job.deferred"));
  const passes = mine.filter((entry) => isKind(entry, "inspection.passed")).filter((entry) => !failed(entry));
  return {
    repairs: works.filter(({ id }) => standing.has(id)),
    works,
    unended: new Set([...starts].filter(([start]) => !finished.has(start)).map(([, person]) => person)),
    passes: passes.map(passOf),
    findings: mine.filter(failed).map(failedOf),
    deferred: new Set(deferrals.flatMap((entry) => entry.data.covers ?? [])),
    under_way: [...starts.keys()].some((start) => standing.has(start) && !ended.has(start)),
  };
}

function repairOf(entry: EntryOf<"job.finished">, starts: ReadonlyMap<string, string>): Repair {
  const { covers, repairers, temporary } = entry.data;
  const helpers = (entry.data.ends ?? []).flatMap((name) => starts.get(name) ?? []);
  return {
    id: entry.id,
    covers: new Set(covers ?? []),
    repairers: new Set([entry.person, ...(repairers ?? []), ...helpers]),
    temporary: temporary ?? false,
  };
}

function passOf({ id, person, data }: EntryOf<"inspection.passed">): Pass {
  const ok = (data.checks ?? []).filter((check) => check.ok === true).map(({ check }) => check);
  return { id, person, covers: new Set(data.covers ?? []), ok: new Set(ok), data };
}

function failedOf({ id, subject }: Entry): Finding {
  return {
    entry: id,
    key: subject ?? "",
    condition: "unknown",
    how: "failed",
    report: "",
    stage: null,
    photos: [],
    two_versions: false,
    covered_by: [id],
  };
}
