/** The shared vectors: what the server makes of an event this phone must make of it, byte for byte. */

import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Queue } from "../src/kit/api";
import { canonical } from "../src/kit/canonical";
import type { QueueAsk } from "../src/kit/queue_ask";
import { queueAnswer } from "../src/queue/answer";

interface Vector extends QueueAsk {
  rule: string;
  queue: Queue;
}

const FOLDER = new URL("../../schemas/vectors/queue/", import.meta.url);
const names = readdirSync(FOLDER).filter((name) => name.endsWith(".json"));

function read(name: string): Vector {
  return JSON.parse(readFileSync(new URL(name, FOLDER), "utf8"));
}

test("there are vectors to hold it against", () => expect(names.length).toBeGreaterThanOrEqual(40));

test.each(names)("%s", (name) => {
  const { rule, queue, ...ask } = read(name);
  const mine = queueAnswer(ask);
  expect(mine, rule).toEqual(queue);
  expect(canonical(mine)).toBe(canonical(queue));
});

test("the order in which entries come changes nothing", () => {
  const { queue, ...ask } = read("sample.json");
  expect(queueAnswer({ ...ask, entries: [...ask.entries].reverse() }).hash).toBe(queue.hash);
});

test("entries of another event count for nothing", () => {
  const { queue, ...ask } = read("parts-that-run-short.json");
  const others = ask.entries.map((entry) => ({ ...entry, id: `${entry.id}-x`, event: "another" }));
  expect(queueAnswer({ ...ask, entries: [...ask.entries, ...others] })).toEqual(queue);
});
