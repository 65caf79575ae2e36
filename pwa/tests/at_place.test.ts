/** What is open at a place, and what a pass there will not count for. */

import { expect, test } from "vitest";
import type { Entry, Job } from "../src/kit/api";
import { atPlace, failedChecks } from "../src/report/at_place";
import { checksOf, signedOf } from "../src/report/looks";
import { hindrancesOf, needsOf, workedOn } from "../src/report/passing";
import { entry, job } from "./making";

const HOSE = "front-right/brake-hose";
const hose = (change: Partial<Job> = {}) =>
  job(HOSE, { group: "brake", condition: "unknown", findings: ["f1"], uncovered: ["f1"], ...change });
const finished = (change: object = {}, by = "p-jo"): Entry =>
  entry("job.finished", { covers: ["f1"], ends: [], ...change } as never, { id: "w1", subject: HOSE, person: by });

test("a place has its repairs, what is inspected together, the cage apart, and what is done", () => {
  const jobs = [
    hose({ condition: "cracked" }),
    job("front-right/hub", { group: "wheel-hold", condition: "unknown" }),
    job("front-right/track-rod-end", { group: "steering", condition: "worn" }),
    job("front-right/door-bars", { group: "cage", condition: "marked" }),
    job("front-right/tyre", { safety_critical: false, inspection: "not-needed" }),
    job("front-right/arch-liner", { safety_critical: false, inspection: "not-needed", state: "finished" }),
    job("front-left/hub", { group: "wheel-hold", condition: "unknown" }),
  ];
  const here = atPlace("front-right", jobs, []);
  const parts = (found: Job[]) => found.map((one) => one.component);
  expect(parts(here.repair)).toEqual(["brake-hose", "tyre"]);
  expect(parts(here.inspect)).toEqual(["hub", "track-rod-end"]);
  expect(parts(here.cage)).toEqual(["door-bars"]);
  expect(parts(here.done)).toEqual(["arch-liner"]);
});

test("what was repaired is inspected next; what failed is repaired first", () => {
  const kind = (one: Job) => Object.entries(atPlace("front-right", [one], [])).find(([, jobs]) => jobs.length > 0)?.[0];
  expect(kind(hose({ condition: "cracked", state: "finished" }))).toBe("inspect");
  expect(kind(hose({ inspection: "failed" }))).toBe("repair");
  expect(kind(hose({ inspection: "failed", state: "finished" }))).toBe("inspect");
});

test("a pass accepts unknown, marked and worn with no repair, bent and a repair for now until a service, else a repair first", () => {
  const needs = (condition: Job["condition"], state: Job["state"] = "open") => needsOf(hose({ condition, state }), []);
  expect(["unknown", "marked", "worn"].map((one) => needs(one as Job["condition"]))).toEqual(Array(3).fill("nothing"));
  expect(needs("bent")).toBe("until");
  expect(["loose", "cracked", "leaking", "broken", "missing"].map((one) => needs(one as Job["condition"]))).toEqual(
    Array(5).fill("repair"),
  );
  expect(needs("cracked", "patched")).toBe("until");
  expect(needs("cracked", "finished")).toBe("nothing");
  const uncovered = hose({ condition: "cracked", state: "finished", uncovered: ["f1", "w1"] });
  expect(needsOf(uncovered, [finished({ temporary: true })])).toBe("until");
});

test("who finished, is named as a repairer, helped, or began and never finished worked on it", () => {
  const start = entry("job.started", {}, { id: "s1", subject: HOSE, person: "p-anni" });
  const who = (entries: Entry[]) => ["p-jo", "p-anni", "p-odil"].filter((one) => workedOn(hose(), entries, one));
  expect(who([finished()])).toEqual(["p-jo"]);
  expect(who([finished({ repairers: ["p-odil"] })])).toEqual(["p-jo", "p-odil"]);
  expect(who([start])).toEqual(["p-anni"]);
  expect(who([start, finished({ ends: ["s1"] })])).toEqual(["p-jo", "p-anni"]);
});

test("taking back one's own start does not undo having worked; somebody else's taking it back does", () => {
  const start = entry("job.started", {}, { id: "s1", subject: HOSE, person: "p-anni" });
  const voided = (by: string) => entry("entry.voided", { voids: ["s1"], reason: "mis-tap" }, { person: by });
  expect(workedOn(hose(), [start, voided("p-anni")], "p-anni")).toBe(true);
  expect(workedOn(hose(), [start, voided("p-boss")], "p-anni")).toBe(false);
});

test("an earlier repair that covers nothing of what is left does not keep anybody from passing it", () => {
  const again = hose({ findings: ["f2"], uncovered: ["f2"] });
  expect(workedOn(again, [finished()], "p-jo")).toBe(false);
});

const LISTS = {
  looks: { brake: ["Dry", "Clean"] },
  check_lists: [
    { group: "brake", check: "Dry", must: true, at: null },
    { group: "brake", check: "Clean", must: false, at: null },
  ],
};

function why(
  one: Job,
  change: { entries?: Entry[]; has_until?: boolean; has_official?: boolean; dry?: boolean | null } = {},
) {
  const { entries = [], has_until = false, has_official = false, dry = true } = change;
  const checks = checksOf([{ ...one, group: "brake" }], LISTS);
  const answers = { Dry: { ok: dry, why: "dark" }, Clean: { ok: true, why: "" } };
  const signed = signedOf([one], checks, answers);
  const signing = { signed, checks, has_until, has_official, person: "p-jo", entries, valid: entries };
  return hindrancesOf([one], signing).map((found) => [found.why, found.checks]);
}

test("what a pass will not count for is told, each reason by itself, and nothing where it counts", () => {
  expect(why(hose())).toEqual([]);
  expect(why(hose(), { entries: [finished()] })).toEqual([["own", []]]);
  expect(why(hose({ condition: "cracked" }))).toEqual([["repair", []]]);
  expect(why(hose({ condition: "bent" }))).toEqual([["until", []]]);
  expect(why(hose({ condition: "bent" }), { has_until: true })).toEqual([]);
  expect(why(hose(), { dry: null })).toEqual([["must", ["Dry"]]]);
  expect(why(hose({ group: "cage" }))).toEqual([["official", []]]);
  expect(why(hose({ group: "cage" }), { has_official: true })).toEqual([]);
});

test("of what is signed as failed nothing is told: it holds anyway", () => {
  expect(why(hose({ condition: "cracked" }), { dry: false })).toEqual([]);
});

test("a failed inspection says which checks failed, until a later one passes", () => {
  const failed = entry(
    "inspection.failed",
    {
      checks: [
        { check: "Dry", ok: false },
        { check: "Clean", ok: true },
      ],
    } as never,
    { id: "i1", subject: HOSE },
  );
  expect(failedChecks(hose({ inspection: "failed", uncovered: ["f1", "i1"] }), [failed])?.checks).toEqual(["Dry"]);
  expect(failedChecks(hose({ inspection: "needed" }), [failed])).toBeNull();
});
