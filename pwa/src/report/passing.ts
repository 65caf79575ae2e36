/** What a pass on a job will not count for, told before it is signed; the fold decides, on every phone alike. Pure. */

import type { Entry, EntryOf, Job } from "../kit/api";
import { isKind } from "./local_entry";
import type { PlaceCheck, Signed } from "./looks";

/** Conditions that a pass accepts with no repair; `bent` only until a service, what is worse not at all. */
const ACCEPTED = new Set(["unknown", "marked", "worn"]);
const ACCEPTED_UNTIL = "bent";
const OVER = new Set(["finished", "accepted"]);

/** What a pass on a job needs beside its checks: nothing, a service that it is good until, or a repair first. */
export type Needs = "nothing" | "until" | "repair";

/** Say whether something on the job is left that no repair, for good or for now, covers and no pass accepted. */
export const isUnrepaired = (job: Job) => !OVER.has(job.state) && job.state !== "patched";

/** Return what a pass on the job needs; `valid`: the car's entries that stand. */
export function needsOf(job: Job, valid: Entry[]): Needs {
  const open = isUnrepaired(job);
  const is_bent = open && job.condition === ACCEPTED_UNTIL;
  if (open && !is_bent && !ACCEPTED.has(job.condition)) return "repair";
  const left = new Set(job.uncovered);
  const is_patched = valid.some((one) => isKind(one, "job.finished") && one.data.temporary && left.has(one.id));
  return is_bent || is_patched || job.state === "patched" ? "until" : "nothing";
}

/**
 * Say whether a person worked on what is to be passed, so that their own pass does not count.
 *
 * `entries`: all of the car, voided ones too: taking back one's own start or finish does not undo having worked.
 */
export function workedOn(job: Job, entries: Entry[], person: string): boolean {
  const mine = entries.filter((one) => one.subject === job.job && !takenBackByOthers(one, entries));
  const starts = mine.filter((one): one is EntryOf<"job.started"> => isKind(one, "job.started"));
  const finishes = mine.filter((one): one is EntryOf<"job.finished"> => isKind(one, "job.finished"));
  const ended = new Set(finishes.flatMap((one) => one.data.ends ?? []));
  if (starts.some((one) => one.person === person && !ended.has(one.id))) return true;
  const left = new Set([...job.uncovered, ...job.findings]);
  return finishes
    .filter((one) => left.has(one.id) || (one.data.covers ?? []).some((id) => left.has(id)))
    .some((one) => repairersOf(one, starts).includes(person));
}

function takenBackByOthers(entry: Entry, entries: Entry[]): boolean {
  return entries.some(
    (one) => isKind(one, "entry.voided") && one.person !== entry.person && one.data.voids.includes(entry.id),
  );
}

function repairersOf(finish: EntryOf<"job.finished">, starts: EntryOf<"job.started">[]): string[] {
  const ends = finish.data.ends ?? [];
  const helpers = starts.filter((one) => ends.includes(one.id)).map((one) => one.person);
  return [finish.person, ...(finish.data.repairers ?? []), ...helpers];
}

/** Why the pass on a job will not end its hold. */
export interface Hindrance {
  job: string;
  why: "own" | "repair" | "until" | "must" | "official";
  /** The checks that must be OK and are not, for `must`. */
  checks: string[];
}

interface Signing {
  signed: Signed[];
  checks: PlaceCheck[];
  /** Whether a service is named that it is good until. */
  has_until: boolean;
  /** Whether an official and their words are written down. */
  has_official: boolean;
  person: string;
  /** All entries of the car, and those of them that stand. */
  entries: Entry[];
  valid: Entry[];
}

/** Return, for each job that would be signed as passed, why that will not count; nothing for those on which it does. */
export function hindrancesOf(jobs: Job[], signing: Signing): Hindrance[] {
  const passed = new Set(signing.signed.filter((one) => one.verdict === "passed").map((one) => one.job));
  return jobs.filter((one) => passed.has(one.job)).flatMap((one) => hindrancesOn(one, signing));
}

function hindrancesOn(job: Job, signing: Signing): Hindrance[] {
  const { signed, checks, has_until, has_official, person, entries, valid } = signing;
  const rows = signed.find((one) => one.job === job.job)?.checks ?? [];
  const ok = new Set(rows.filter((row) => row.ok === true).map(({ check }) => check));
  const musts = checks.filter((one) => one.must_for.includes(job.job) && !ok.has(one.check)).map(({ check }) => check);
  const needs = needsOf(job, valid);
  const found: [Hindrance["why"], boolean][] = [
    ["own", workedOn(job, entries, person)],
    ["repair", needs === "repair"],
    ["until", needs === "until" && !has_until],
    ["must", musts.length > 0],
    ["official", job.group === "cage" && !has_official],
  ];
  return found.filter(([, is]) => is).map(([why]) => ({ job: job.job, why, checks: why === "must" ? musts : [] }));
}
