/** Check lists: what an inspector goes through at a place, and what one signature says of each of its jobs. Pure. */

import type { EventSetup, Job } from "../kit/api";

/** The list of components that are in no group of their own. */
export const OTHER = "other";

/** Where a check is made: car on stands, wheel off, on the ground; null where the list does not say. */
export type At = "air" | "off" | "ground" | null;

/** The order in which a place is gone through: what is said of no position first, then down to the ground. */
export const ORDER: readonly At[] = [null, "air", "off", "ground"];

/** One check of a place, each once, however many jobs it concerns. */
export interface PlaceCheck {
  check: string;
  at: At;
  /** The jobs that it concerns. */
  jobs: string[];
  /** Those of them that no pass counts on where it is not OK. */
  must_for: string[];
}

/** What was said of a check; nobody answers for the person, so a check has none until it is given. */
export interface Answer {
  ok: boolean | null;
  why: string;
}

export type Answers = Readonly<Record<string, Answer>>;

/** The lists of a set-up; one that an older server gave, and this phone still holds, has neither. */
type Lists = Pick<EventSetup, "looks" | "check_lists">;

/** Return the checks of these jobs, each once, in the order of the place; a group without a list takes that of the others. */
export function checksOf(jobs: Job[], setup: Lists): PlaceCheck[] {
  const lists = new Map(Object.entries(setup.looks ?? {}));
  const found = new Map<string, PlaceCheck>();
  for (const job of jobs) {
    const group = job.group ?? OTHER;
    const from = lists.has(group) ? group : OTHER;
    for (const check of lists.get(from) ?? []) {
      const row = (setup.check_lists ?? []).find((one) => one.group === from && one.check === check);
      const one = found.get(check) ?? { check, at: row?.at ?? null, jobs: [], must_for: [] };
      one.jobs.push(job.job);
      if (row?.must && from === job.group) one.must_for.push(job.job);
      found.set(check, one);
    }
  }
  return [...found.values()].sort((a, b) => ORDER.indexOf(a.at) - ORDER.indexOf(b.at));
}

/** What one signature says of one job. */
export interface Signed {
  job: string;
  verdict: "passed" | "failed";
  checks: Row[];
}

interface Row {
  check: string;
  ok: boolean | null;
  why?: string;
}

/**
 * Return what a signature says of each job, with the checks that concern it: failed if one of them is not OK, passed if
 * none is and one is OK. A job of which nothing was done is not in it.
 */
export function signedOf(jobs: Job[], checks: PlaceCheck[], answers: Answers): Signed[] {
  return jobs.flatMap(({ job }) => {
    const rows = checks.filter((one) => one.jobs.includes(job)).flatMap(({ check }) => rowOf(check, answers[check]));
    if (rows.some(({ ok }) => ok === false)) return { job, verdict: "failed" as const, checks: rows };
    if (rows.some(({ ok }) => ok === true)) return { job, verdict: "passed" as const, checks: rows };
    return [];
  });
}

function rowOf(check: string, said: Answer | undefined): Row[] {
  if (!said) return [];
  const why = said.why.trim();
  return [{ check, ok: said.ok, ...(why && said.ok !== true ? { why } : {}) }];
}

/** What keeps a page of checks from being signed. */
export interface Lacking {
  lacks: "answers" | "why" | "ok";
  checks: string[];
}

/** Return what a signature under these answers lacks, or null: an answer to each check, a reason for each not done, one done. */
export function lackingFor(checks: PlaceCheck[], answers: Answers): Lacking | null {
  const names = checks.map(({ check }) => check);
  const open = names.filter((check) => !answers[check]);
  if (open.length > 0) return { lacks: "answers", checks: open };
  const unsaid = names.filter((check) => answers[check]?.ok === null && answers[check]?.why.trim() === "");
  if (unsaid.length > 0) return { lacks: "why", checks: unsaid };
  return names.some((check) => answers[check]?.ok !== null) ? null : { lacks: "ok", checks: names };
}
