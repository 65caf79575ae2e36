/** One plain word for each act, on the screens that everybody sees; docs/screens.md has the screens. */

import { readFileSync } from "node:fs";
import { expect, test } from "vitest";

const FILES = ["board", "common", "costs", "log", "more", "queue", "reports", "round", "shell"];

/** What an act is not called, and what it is called instead. */
const NOT: [RegExp, string][] = [
  [/\b(?:look|looks|looked)\b/i, "inspect, inspection"],
  [/\b(?:reckon|work out|worked out)\b/i, "calculate"],
  [/\b(?:anew|begin again)\b/i, "again, start over"],
  [/\bset aside\b/i, "needs review"],
  [/\bshut out\b/i, "blocked"],
  [/\bunseen by each other\b/i, "edited at the same time"],
  [/\btake over without\b/i, "receive from another phone"],
  [/\bas codes?\b/i, "send by QR code"],
  [/\btick several\b/i, "mark several done"],
  [/\bput down\b/i, "record"],
  [/\bteaches\b/i, "season"],
];

/** Each is what the word says in everyday English. */
const EVERYDAY = [
  "new since you looked",
  "What to look at yourselves",
  "Looked again: nothing there",
  "they can look at it on the server",
  "Ask your manager to look at it",
  "Stop and look before you drive on",
];

/** What is between quotes or backticks in a file of words. */
function said(name: string): string[] {
  const text = readFileSync(new URL(`../src/view/words/${name}.ts`, import.meta.url), "utf8");
  return [...text.replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, "").matchAll(/"[^"\n]*"|`[^`]*`/g)].map(([one]) => one);
}

test.each(FILES)("%s", (name) => {
  const sentences = said(name);
  expect(sentences.length).toBeGreaterThan(5);
  const plain = sentences.filter((sentence) => !EVERYDAY.some((one) => sentence.includes(one)));
  const found = plain.flatMap((sentence) =>
    NOT.flatMap(([pattern, use]) => (pattern.test(sentence) ? [`${sentence} → ${use}`] : [])),
  );
  expect(found).toEqual([]);
});

test("an exception that nobody says any more is none", () => {
  const everything = FILES.flatMap(said);
  expect(EVERYDAY.filter((one) => !everything.some((sentence) => sentence.includes(one)))).toEqual([]);
});
