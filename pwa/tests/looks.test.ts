/** Which check list a look goes through. */

import { expect, test } from "vitest";
import type { Job } from "../src/kit/api";
import { type Answers, checksOf, lackingFor, mustsOf, rowsOf } from "../src/report/looks";

const LOOKS = { brake: ["Bare", "Pedal firm"], other: ["Bare", "Tight"] };
const job = (group: string | null) => ({ group }) as Job;

test("a corner's looks share their checks, each once", () => {
  expect(checksOf([job("brake"), job(null)], LOOKS)).toEqual(["Bare", "Pedal firm", "Tight"]);
});

test("a group without a list, whatever its name, takes the list of the others", () => {
  expect(checksOf([job("harness")], LOOKS)).toEqual(["Bare", "Tight"]);
  expect(checksOf([job("constructor")], LOOKS)).toEqual(["Bare", "Tight"]);
});

const row = (group: string, check: string, must: boolean) => ({ group, check, must, at: null });
const OK = { ok: true, why: "" };
const skipped = (why: string) => ({ ok: null, why });

test("a must is one on the jobs of its own group, each once; an older set-up has none", () => {
  const rows = [row("brake", "Dry", true), row("brake", "Bare", false), row("other", "Dry", true)];
  expect(mustsOf([job("brake"), job("brake")], rows)).toEqual(["Dry"]);
  expect(mustsOf([job(null)], rows)).toEqual([]);
  expect(mustsOf([job("brake")], undefined)).toEqual([]);
});

test("no check is answered by itself, and a pass needs every answer, each must, a reason and one OK", () => {
  const lacking = (answers: Answers) => lackingFor(["Dry", "Bare"], ["Dry"], answers);
  expect(lacking({})).toEqual({ lacks: "answers", checks: ["Dry", "Bare"] });
  expect(lacking({ Dry: OK })).toEqual({ lacks: "answers", checks: ["Bare"] });
  expect(lacking({ Dry: skipped("dark"), Bare: OK })).toEqual({ lacks: "must", checks: ["Dry"] });
  expect(lacking({ Dry: OK, Bare: skipped(" ") })).toEqual({ lacks: "why", checks: ["Bare"] });
  expect(lacking({ Dry: OK, Bare: skipped("dark") })).toBeNull();
  expect(lackingFor(["Bare"], [], { Bare: skipped("dark") })).toEqual({ lacks: "ok", checks: ["Bare"] });
});

test("what was not answered is not signed; what was not done is, with why", () => {
  const answers = { Dry: OK, Bare: skipped(" dark "), Tight: { ok: false, why: "" } };
  expect(rowsOf(["Dry", "Bare", "Tight", "Open"], answers)).toEqual([
    { check: "Dry", ok: true },
    { check: "Bare", ok: null, why: "dark" },
    { check: "Tight", ok: false },
  ]);
});
