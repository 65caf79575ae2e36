/** What is made of the driver's answers. */

import { expect, test } from "vitest";
import type { CarMap } from "../src/kit/api";
import { type Answers, askedOf, QUESTIONS, reportOfAnswers, symptomsBehind } from "../src/report/asking";
import { EMPTY_BODY } from "../src/report/body";

const BASE = { ...EMPTY_BODY, stage: "SS3", where: "service" as const };
const noted = (questions: string[]) => `not as before: ${questions.join(", ")}`;
const AS_BEFORE = { as_before: true, symptoms: [] };

test("seven questions; what was not asked is not put down", () => {
  expect(QUESTIONS).toHaveLength(7);
  const answers: Answers = { pedal: { as_before: false, symptoms: ["long-pedal"] }, steering: AS_BEFORE };
  expect(askedOf(answers, "B")).toEqual({
    answers: [
      { question: "steering", as_before: true },
      { question: "pedal", as_before: false },
    ],
    service: "B",
  });
  expect(askedOf({}, null)).toEqual({ answers: [] });
});

test("all as before makes no report", () => {
  expect(reportOfAnswers({ steering: AS_BEFORE, pedal: AS_BEFORE }, BASE, noted)).toBeNull();
});

test("what is not as before is one report: named as a symptom, else noted by its question", () => {
  const answers: Answers = {
    gearbox: { as_before: false, symptoms: [] },
    pedal: { as_before: false, symptoms: ["long-pedal", "pulls-braking"] },
    steering: AS_BEFORE,
  };
  expect(reportOfAnswers(answers, BASE, noted)).toEqual({
    ...BASE,
    symptoms: ["long-pedal", "pulls-braking"],
    note: "not as before: gearbox",
  });
});

test("only symptoms that the team's map knows are offered", () => {
  const map = { symptoms: { "handbrake-weak": {}, "my-own": {} } } as unknown as CarMap;
  expect(symptomsBehind("handbrake", map)).toEqual(["handbrake-weak"]);
  expect(symptomsBehind("pedal", map)).toEqual([]);
});
