/** The seven questions to the driver in the bay, and what is made of the answers. Pure. */

import type { CarMap, DataOf, ReportBody } from "../kit/api";

/** What may be behind each question, as codes of the package's car map. Common practice, no source. */
const BEHIND = {
  steering: ["pulls-straight", "wheel-off-centre", "heavy-steering", "steering-play", "rub-on-lock"],
  pedal: ["long-pedal", "soft-pedal", "pedal-sinks", "hard-pedal", "pulls-braking"],
  handbrake: ["handbrake-weak"],
  noise: ["vibration-speed", "knock-bumps", "grinding-corner", "clicking-on-power", "bottoms-out", "exhaust-loud"],
  gearbox: ["gears-hard", "no-drive", "clutch-slip-or-drag"],
  lamps: ["temp-high", "oil-lamp", "charge-low", "misfire-or-cuts", "fuel-smell", "smoke-or-burning", "lamps-fail"],
  hit: ["heavy-hit", "hard-landing", "puncture-driven", "water-crossing", "rolled"],
} satisfies Record<string, string[]>;

export type Question = keyof typeof BEHIND;
export const QUESTIONS = Object.keys(BEHIND) as Question[];

/** What the driver said to a question: as before, or not, and then what of it. */
export interface Answer {
  as_before: boolean;
  symptoms: string[];
}
export type Answers = Partial<Record<Question, Answer>>;

/** Return what may be behind a question, as far as the team's map knows it. */
export function symptomsBehind(question: Question, map: CarMap): string[] {
  return BEHIND[question].filter((code) => code in map.symptoms);
}

/** Return the answers as they are put down; a question that was not asked is not in it. */
export function askedOf(answers: Answers, service: string | null): DataOf["driver.asked"] {
  const given = QUESTIONS.flatMap((question) => {
    const answer = answers[question];
    return answer ? [{ question, as_before: answer.as_before }] : [];
  });
  return { answers: given, ...(service ? { service } : {}) };
}

/**
 * Return the report of what is not as before, or null where all is.
 *
 * `base`: place and stage. What the driver could not name goes into the note by its question: `noted` is its text.
 */
export function reportOfAnswers(
  answers: Answers,
  base: ReportBody,
  noted: (questions: Question[]) => string,
): ReportBody | null {
  const changed = QUESTIONS.filter((question) => answers[question]?.as_before === false);
  if (changed.length === 0) return null;
  const symptoms = changed.flatMap((question) => answers[question]?.symptoms ?? []);
  const unnamed = changed.filter((question) => answers[question]?.symptoms.length === 0);
  return { ...base, symptoms, note: unnamed.length > 0 ? noted(unnamed) : base.note };
}
