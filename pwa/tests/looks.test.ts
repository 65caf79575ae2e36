/** Which checks an inspection goes through, and what one signature says of each job. */

import { expect, test } from "vitest";
import { type Answers, checksOf, lackingFor, signedOf } from "../src/report/looks";
import { job } from "./making";

type Row = { group: string; check: string; must: boolean; at: "air" | "off" | "ground" | null };
const row = (group: string, check: string, at: Row["at"] = null, must = false): Row => ({ group, check, must, at });

const lists = (...rows: Row[]) => {
  const looks: Record<string, string[]> = {};
  for (const { group, check } of rows) looks[group] = [...(looks[group] ?? []), check];
  return { looks, check_lists: rows };
};
const LISTS = lists(
  row("brake", "Pedal firm", "ground"),
  row("brake", "Clean", "off"),
  row("brake", "Dry", "off", true),
  row("other", "Clean", "off"),
  row("other", "Rocks", "air", true),
);
const HOSE = job("front-left/brake-hose", { group: "brake" });
const DISC = job("front-left/brake-disc", { group: "brake" });
const HUB = job("front-left/hub", { group: "other" });
const BARE = job("front-left/unknown", { group: null });

const OK = { ok: true, why: "" };
const NOT = { ok: false, why: "" };
const skipped = (why: string) => ({ ok: null, why });

test("a place's checks stand each once, from the air over the wheel's bolts down to the ground", () => {
  expect(checksOf([HOSE, HUB], LISTS).map(({ check, at }) => [check, at])).toEqual([
    ["Rocks", "air"],
    ["Clean", "off"],
    ["Dry", "off"],
    ["Pedal firm", "ground"],
  ]);
});

test("a check names the jobs that it concerns, and those that it must be OK for", () => {
  const [rocks, clean, dry] = checksOf([HOSE, DISC, HUB], LISTS);
  expect(clean?.jobs).toEqual([HOSE.job, DISC.job, HUB.job]);
  expect(dry).toMatchObject({ jobs: [HOSE.job, DISC.job], must_for: [HOSE.job, DISC.job] });
  expect(rocks?.must_for).toEqual([HUB.job]);
});

test("a group without a list, whatever its name, takes the list of the others, and none of its musts", () => {
  for (const group of ["harness", "constructor", null]) {
    const checks = checksOf([{ ...BARE, group }], LISTS);
    expect(checks.map(({ check }) => check)).toEqual(["Rocks", "Clean"]);
    expect(checks.every((one) => one.must_for.length === 0)).toBe(true);
  }
});

test("a set-up of an older server names no place and no must", () => {
  const old = { looks: LISTS.looks } as unknown as typeof LISTS;
  expect(checksOf([HOSE], old).map(({ check, at, must_for }) => [check, at, must_for])).toEqual([
    ["Pedal firm", null, []],
    ["Clean", null, []],
    ["Dry", null, []],
  ]);
});

test("one signature fails what has a check not OK, passes what has one OK, and says nothing of what was not done", () => {
  const jobs = [HOSE, HUB, BARE];
  const checks = checksOf(jobs, LISTS);
  const answers: Answers = { Rocks: skipped("on the ground"), Clean: skipped("dark"), Dry: NOT, "Pedal firm": OK };
  expect(signedOf(jobs, checks, answers)).toEqual([
    {
      job: HOSE.job,
      verdict: "failed",
      checks: [
        { check: "Clean", ok: null, why: "dark" },
        { check: "Dry", ok: false },
        { check: "Pedal firm", ok: true },
      ],
    },
  ]);
  const passed = signedOf(jobs, checks, { ...answers, Rocks: OK, Dry: OK });
  expect(passed.map((one) => [one.job, one.verdict])).toEqual([
    [HOSE.job, "passed"],
    [HUB.job, "passed"],
    [BARE.job, "passed"],
  ]);
});

test("what was not answered is not signed; why is signed beside what was not done, never beside what is OK", () => {
  const checks = checksOf([HOSE], LISTS);
  const [signed] = signedOf([HOSE], checks, { Dry: { ok: true, why: "dark" }, Clean: skipped(" dark ") });
  expect(signed?.checks).toEqual([
    { check: "Clean", ok: null, why: "dark" },
    { check: "Dry", ok: true },
  ]);
});

test("no check is answered by itself: a signature needs each answer, a reason for each not done, one that was done", () => {
  const checks = checksOf([BARE], LISTS);
  expect(lackingFor(checks, {})).toEqual({ lacks: "answers", checks: ["Rocks", "Clean"] });
  expect(lackingFor(checks, { Rocks: OK })).toEqual({ lacks: "answers", checks: ["Clean"] });
  expect(lackingFor(checks, { Rocks: OK, Clean: skipped(" ") })).toEqual({ lacks: "why", checks: ["Clean"] });
  expect(lackingFor(checks, { Rocks: NOT, Clean: skipped("dark") })).toBeNull();
  const none = { Rocks: skipped("dark"), Clean: skipped("dark") };
  expect(lackingFor(checks, none)).toEqual({ lacks: "ok", checks: ["Rocks", "Clean"] });
});
