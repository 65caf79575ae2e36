/** The log of one car sorted by what it is about; and all its jobs, made again from the whole log. */

import { type Finding, findingsOf } from "../fold/report";
import { standing, undoneWork } from "../fold/voids";
import type { Entry } from "../kit/api";
import { sortedSet } from "../kit/code_points";
import { Fraction } from "../kit/fraction";
import { grouped } from "../kit/grouped";
import { isKind } from "../report/local_entry";
import { isVersion } from "../report/versions";
import { actsOn } from "./acts";
import { Context, type Job, workOut } from "./job";
import type { Setup } from "./setup";

/**
 * What stands of one car's log: the entries by id, findings by job, entries about jobs by job.
 *
 * undone: starts and finishes that only their own author took back, by job.
 */
export interface CarLog {
  entries: Entry[];
  findings: ReadonlyMap<string, Finding[]>;
  acts: ReadonlyMap<string, Entry[]>;
  undone: ReadonlyMap<string, Entry[]>;
}

/** Sort the log of one car, in any order, doubled or not. */
export function carLog(entries: Entry[], setup: Setup): CarLog {
  const stand = standing(entries, setup.json);
  const reports = grouped(stand.filter(isVersion), (version) => version.subject);
  const findings = [...reports.values()].flatMap((versions) => findingsOf(versions, setup.car_map, setup.event));
  const acts = stand.filter((entry) => /^(job|inspection)\./.test(entry.kind));
  return {
    entries: stand,
    findings: grouped(findings, (finding) => finding.key),
    acts: grouped(acts, (entry) => entry.subject ?? ""),
    undone: grouped(undoneWork(entries, setup.json), (entry) => entry.subject ?? ""),
  };
}

/** Return the jobs of one car, by key. */
export function jobsOf(log: CarLog, setup: Setup): Job[] {
  const context = new Context(setup.event, setup.car_map, enteredIn(log.entries));
  const keys = sortedSet([...log.findings.keys(), ...log.acts.keys()]);
  const actsOf = (key: string) => actsOn(log.acts.get(key) ?? [], log.undone.get(key) ?? []);
  const jobs = keys.map((key) => workOut(key, log.findings.get(key) ?? [], actsOf(key), context));
  return jobs.filter((job) => job !== null);
}

/** Return the services that the car came into, by the `service.entered` entries that stand. */
function enteredIn(entries: Entry[]): Set<string> {
  return new Set(entries.filter((entry) => isKind(entry, "service.entered")).map((entry) => entry.data.service));
}

/** Return how many of each part the repairs used, among the entries of one car that stand. */
export function usedIn(entries: Entry[]): Map<string, Fraction> {
  const repairs = entries.filter((entry) => isKind(entry, "job.finished"));
  const parts = repairs.flatMap(({ data }) => data.parts ?? []);
  return addUp(parts.map(({ part, qty }) => [part, Fraction.read(qty ?? 1)]));
}

/** Add quantities by part. */
export function addUp(items: Iterable<[string, Fraction]>): Map<string, Fraction> {
  const summed = new Map<string, Fraction>();
  for (const [part, qty] of items) summed.set(part, (summed.get(part) ?? Fraction.ZERO).plus(qty));
  return summed;
}
