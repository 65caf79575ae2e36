/**
 * Which reports are of one hit: as somebody grouped them, else as one was found to be behind the other.
 *
 * The server's rule (schemas/vectors/incidents.json holds both to it): a grouping (`incident.grouped`) stands while no
 * later one names it in `replaces`. A report that several name belongs to the one with the smallest id. A report that
 * none names follows its `caused_by`, step by step; what is left alone is an incident of its own, named by the report.
 */

import type { DataOf, Entry, EntryOf } from "../kit/api";
import { bodyOf } from "./body";
import { type LocalEntry, isKind } from "./local_entry";
import { byTime } from "./order";
import { reportsOf, type EffectiveReport } from "./effective";
import { entriesOf } from "./lists";

export type Grouped = EntryOf<"incident.grouped">;
export type Grouping = DataOf["incident.grouped"];

export interface Incident {
  /** The grouping's id, or the report that the others hang on. */
  incident: string;
  /** Ids of reports, ascending. */
  reports: string[];
  /** The grouping as it stands, or null where nobody grouped. */
  grouping: Grouped | null;
}

/** Return each report's incident; `caused_by` has every report, with what is behind it or null. */
export function incidentsOf(entries: Entry[], caused_by: ReadonlyMap<string, string | null>): Map<string, Incident> {
  const grouped = standingGroups(entries);
  const group_of = new Map<string, string>();
  const largest_first = [...grouped.values()].sort((a, b) => (a.id < b.id ? 1 : -1));
  for (const { id, data } of largest_first) for (const report of data.reports) group_of.set(report, id);
  const made = new Map<string, Incident>();
  const found = new Map<string, Incident>();
  for (const report of [...caused_by.keys()].sort()) {
    const incident = rootOf(report, group_of, caused_by);
    const one = made.get(incident) ?? { incident, reports: [], grouping: grouped.get(incident) ?? null };
    one.reports.push(report);
    made.set(incident, one);
    found.set(report, one);
  }
  return found;
}

/** Return the groupings that no later one takes over, by id. */
export function standingGroups(entries: Entry[]): Map<string, Grouped> {
  const all = entries.filter((entry): entry is Grouped => isKind(entry, "incident.grouped"));
  // A grouping that names itself, or one of a ring, would leave none: only an older one is taken over (ids ascend).
  const gone = new Set(all.flatMap(({ id, data }) => (data.replaces ?? []).filter((old) => old < id)));
  return new Map(all.filter(({ id }) => !gone.has(id)).map((entry) => [entry.id, entry]));
}

function rootOf(
  report: string,
  group_of: ReadonlyMap<string, string>,
  caused_by: ReadonlyMap<string, string | null>,
): string {
  const seen = [report];
  for (let at = report; ; seen.push(at)) {
    const group = group_of.get(at);
    if (group !== undefined) return group;
    const behind = caused_by.get(at) ?? null;
    if (behind === null || !caused_by.has(behind)) return at;
    const ring = seen.indexOf(behind);
    if (ring >= 0) return seen.slice(ring).sort()[0] as string;
    at = behind;
  }
}

/** A hit with its reports as they stand, oldest first. */
export interface Hit extends Incident {
  told: EffectiveReport[];
}

/** Return the hits of a car, newest first. What the server refused counts for nothing. */
export function hitsOf(entries: LocalEntry[], car: string): Hit[] {
  const counted = entries.filter((held) => held.problem === null && held.entry.car === car);
  const reports = reportsOf(counted, car);
  const caused_by = new Map(reports.map((report) => [report.report, causeOf(report)]));
  const found = incidentsOf(entriesOf(counted), caused_by);
  const hits = new Map<string, Hit>();
  for (const report of [...reports].reverse()) {
    const incident = found.get(report.report) as Incident;
    const hit = hits.get(incident.incident) ?? { ...incident, told: [] };
    hits.set(incident.incident, { ...hit, told: [...hit.told, report] });
  }
  return [...hits.values()].sort((a, b) => byTime(firstOf(b), firstOf(a)));
}

const firstOf = (hit: Hit): Entry => hit.told[0]?.versions[0] as Entry;

// Of several heads the server reads the one with the smallest id.
function causeOf(report: EffectiveReport): string | null {
  const heads = report.heads.filter((head) => head.kind !== "report.withdrawn").sort((a, b) => (a.id < b.id ? -1 : 1));
  return heads[0] ? bodyOf(heads[0]).caused_by : null;
}
