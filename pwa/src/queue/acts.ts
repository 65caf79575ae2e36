/** What people did about one job: its job.* and inspection.* entries, sorted by what they are. */

import type { Finding } from "../fold/report";
import { failed } from "../fold/voids";
import type { DataOf, Entry, EntryOf } from "../kit/api";
import { isKind } from "../report/held";

/** A `job.finished`: what it covers and who repaired (its author, `repairers`, authors of starts it ends). */
export interface Repair {
  id: string;
  covers: ReadonlySet<string>;
  repairers: ReadonlySet<string>;
  temporary: boolean;
}

/** An `inspection.passed` with every check ok. */
export interface Pass {
  id: string;
  person: string;
  covers: ReadonlySet<string>;
  data: DataOf["inspection.passed"];
}

/** The acts on one job. `findings` are its failed inspections, each a finding on the job itself. */
export interface Acts {
  repairs: Repair[];
  passes: Pass[];
  findings: Finding[];
  deferred: ReadonlySet<string>;
  under_way: boolean;
}

/** Sort the entries about one job that stand; they come by id, voided ones left out by the caller. */
export function actsOn(mine: Entry[]): Acts {
  const starts = new Map(mine.filter((entry) => entry.kind === "job.started").map((one) => [one.id, one.person]));
  const stops = mine.filter((entry) => isKind(entry, "job.stopped", "job.finished"));
  const ended = new Set(stops.flatMap((entry) => entry.data.ends ?? []));
  const deferrals = mine.filter((entry) => isKind(entry, "job.deferred"));
  const passes = mine.filter((entry) => isKind(entry, "inspection.passed")).filter((entry) => !failed(entry));
  return {
    repairs: mine.filter((entry) => isKind(entry, "job.finished")).map((entry) => repairOf(entry, starts)),
    passes: passes.map(passOf),
    findings: mine.filter(failed).map(failedOf),
    deferred: new Set(deferrals.flatMap((entry) => entry.data.covers ?? [])),
    under_way: [...starts.keys()].some((start) => !ended.has(start)),
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
  return { id, person, covers: new Set(data.covers ?? []), data };
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
