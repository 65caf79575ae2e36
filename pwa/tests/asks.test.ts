/** What is asked at the release, held to the cases that the server holds to. */

import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Entry, EventSetup } from "../src/kit/api";
import { asksOf } from "../src/queue/asks";
import { entry } from "./making";

type Told = [id: string, kind: Entry["kind"], subject: string | null, person: string, data: never];
interface Case {
  why: string;
  entries: Told[];
  asked: [string, string, string[], string[]][];
}

const read = (name: string) =>
  JSON.parse(readFileSync(new URL(`../../schemas/vectors/${name}`, import.meta.url), "utf8"));
const { cases } = read("asks.json") as { cases: Case[] };
const setup: EventSetup = read("queue/sample.json").setup;

test("there are cases", () => expect(cases.length).toBeGreaterThanOrEqual(15));

test.each(cases.map((one) => [one.why, one] as const))("%s", (_, one) => {
  const made = one.entries.map(([id, kind, subject, person, data]) => entry(kind, data, { id, subject, person }));
  for (const entries of [made, [...made].reverse()]) {
    const asked = asksOf(entries, setup);
    expect(asked.map(({ ask, place, entries: behind, not_by }) => [ask, place, behind, not_by])).toEqual(one.asked);
  }
});

test("a crew's phone without prices asks by the map alone", () => {
  const { rate_table: _, ...bare } = setup;
  const done = entry("job.finished", {}, { id: "a", subject: "front-left/brake-hose", person: "p-bodo" });
  const asked = asksOf([done], bare as EventSetup);
  expect(asked.map((one) => one.ask)).toEqual(["nuts", "pedal", "tools"]);
});
