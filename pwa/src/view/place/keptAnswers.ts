/** Keeps an inspection on this phone until it is signed: it outlives a locked screen, a reload, a look at another page. */

import type { Answers, PlaceCheck } from "../../report/looks";

/** What is answered and written so far; a PIN is never part of it. */
export interface Draft {
  /** The jobs that were inspected when it was kept. */
  jobs: readonly string[];
  answers: Answers;
  /** What was filed from a check, in words, by the check. */
  filed: Readonly<Record<string, string>>;
  until: string;
  note: string;
  official: { shown_to: string; said: string };
}

const EMPTY: Draft = { jobs: [], answers: {}, filed: {}, until: "", note: "", official: { shown_to: "", said: "" } };

/** Whose inspection of what: nobody goes on with another person's answers. */
export const keyOf = (event: string, car: string, subject: string, device: string) =>
  `shuntbook.inspection ${event} ${car} ${subject} ${device}`;

/** Return what is kept, for the checks of these jobs: an answer counts for no job that came in after it was given. */
export function keptAnswers(key: string, jobs: string[], checks: PlaceCheck[]): Draft {
  const text = sessionStorage.getItem(key);
  if (text === null) return { ...EMPTY, jobs };
  const kept = JSON.parse(text) as Draft;
  const still = checks.filter((one) => one.jobs.every((job) => kept.jobs.includes(job))).map(({ check }) => check);
  const answers = Object.fromEntries(Object.entries(kept.answers).filter(([check]) => still.includes(check)));
  return { ...kept, jobs, answers };
}

export function keepAnswers(key: string, draft: Draft): void {
  try {
    sessionStorage.setItem(key, JSON.stringify(draft));
  } catch (error) {
    // A phone with no room: what is on the screen is there still.
    if (!(error instanceof DOMException)) throw error;
  }
}

export const forgetAnswers = (key: string) => sessionStorage.removeItem(key);
