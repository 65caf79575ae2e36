/** Check lists: what an inspector goes through, by the group of the component, and what a signature needs. Pure. */

import type { EventSetup, Job } from "../kit/api";

/** The list of components that are in no group of their own. */
export const OTHER = "other";

/** Return the checks of a look at these jobs, each once; a group without a list takes that of the others. */
export function checksOf(jobs: Job[], looks: EventSetup["looks"] | undefined): string[] {
  // A set-up that an older server gave, and this phone still holds, lists none.
  const lists = new Map(Object.entries(looks ?? {}));
  return [...new Set(jobs.flatMap((job) => lists.get(job.group ?? OTHER) ?? lists.get(OTHER) ?? []))];
}

/** What was said of a check; nobody answers for the person, so a check has none until it is given. */
export interface Answer {
  ok: boolean | null;
  why: string;
}

export type Answers = Readonly<Record<string, Answer>>;

/** Return which of the checks no pass on these jobs counts without; a set-up of an older server marks none. */
export function mustsOf(jobs: Job[], rows: EventSetup["check_lists"]): string[] {
  const groups = new Set(jobs.map((job) => job.group));
  const must = (rows ?? []).filter((row) => row.must && groups.has(row.group));
  return [...new Set(must.map((row) => row.check))];
}

/** Return the rows that are signed: each check that was answered, with why where somebody said so. */
export function rowsOf(checks: string[], answers: Answers): { check: string; ok: boolean | null; why?: string }[] {
  return checks.flatMap((check) => {
    const said = answers[check];
    if (!said) return [];
    const why = said.why.trim();
    return [{ check, ok: said.ok, ...(why && said.ok !== true ? { why } : {}) }];
  });
}

/** What keeps checks from being signed as passed; `must` are those that have to be OK. */
export interface Lacking {
  lacks: "answers" | "must" | "why" | "ok";
  checks: string[];
}

/** Return what a pass with these answers lacks, or null: each check is answered, one is OK, and so is each must. */
export function lackingFor(checks: string[], musts: string[], answers: Answers): Lacking | null {
  const open = checks.filter((check) => !answers[check]);
  if (open.length > 0) return { lacks: "answers", checks: open };
  const must = musts.filter((check) => answers[check]?.ok !== true);
  if (must.length > 0) return { lacks: "must", checks: must };
  const unsaid = checks.filter((check) => answers[check]?.ok === null && answers[check]?.why.trim() === "");
  if (unsaid.length > 0) return { lacks: "why", checks: unsaid };
  return checks.some((check) => answers[check]?.ok === true) ? null : { lacks: "ok", checks };
}
