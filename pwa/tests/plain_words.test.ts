/** One plain word for each act, on every screen and in every message; docs/screens.md has the screens. */

import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";

const WORDS = readdirSync(new URL("../src/view/words", import.meta.url)).filter((name) => name.endsWith(".ts"));
const FILES = [...WORDS.map((name) => `view/words/${name}`), "kit/messages.ts", "kit/later_messages.ts"];

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
  [/\bputs? (?:it )?down\b/i, "record"],
  [/\bteaches\b/i, "season"],
  [/\bmend(?:s|ed)?\b/i, "fix"],
  [/\b(?:he|his|him|himself)\b/i, "they"],
  [/\b(?:till|whilst|let go from|tent pole)\b/i, "until, while, left, job sheet"],
  [/\bout of service\b/i, "left service"],
  [/\bbecame of\b/i, "customer's answer"],
  [/\b(?:comes back to you|you pay all of it)\b/i, "refund, payable in full"],
  [/\b(?:runs out on|what runs out)\b/i, "expires, expiry dates"],
  [/\bMind\b/, "caution"],
  [/\bmade at once\b/i, "quick plan"],
  [/\bis not a number\b/i, "type a price, 0 if free"],
];

/** Each is what the word says in everyday English. */
const EVERYDAY = [
  "new since you looked",
  "What to look at yourselves",
  "Looked again: nothing there",
  "they can look at it on the server",
  "Ask your manager to look at it",
  "Stop and look before you drive on",
  "How the app looks on this phone",
  "Look for a leak",
  "Looks like damage, not wear",
];

/** Names that the sentences are found by, and no sentences. */
const NAMES = ['"looks"'];

/** What is between quotes or backticks in a file of words. */
function said(name: string): string[] {
  const text = readFileSync(new URL(`../src/${name}`, import.meta.url), "utf8");
  return [...text.replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, "").matchAll(/"[^"\n]*"|`[^`]*`/g)].map(([one]) => one);
}

test.each(FILES)("%s", (name) => {
  const sentences = said(name);
  expect(sentences.length).toBeGreaterThan(5);
  const plain = sentences.filter(
    (sentence) => !NAMES.includes(sentence) && !EVERYDAY.some((one) => sentence.includes(one)),
  );
  const found = plain.flatMap((sentence) =>
    NOT.flatMap(([pattern, use]) => (pattern.test(sentence) ? [`${sentence} → ${use}`] : [])),
  );
  expect(found).toEqual([]);
});

test("an exception that nobody says any more is none", () => {
  const everything = FILES.flatMap(said);
  expect(EVERYDAY.filter((one) => !everything.some((sentence) => sentence.includes(one)))).toEqual([]);
});
