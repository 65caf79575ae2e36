/** What closing entries cover: what this phone shows, and no other. */

import { expect, test } from "vitest";
import {
  findingsShown,
  keysOf,
  type Known,
  lookedAt,
  releaseCovers,
  runningStarts,
  startsToStop,
} from "../src/report/covers";
import { EMPTY_BODY } from "../src/report/body";
import type { LocalEntry } from "../src/report/local_entry";
import { CAR, entry, held, job, queue, setup } from "./making";

const WHEEL = "front-left/wheel";
const jobs = [
  job(WHEEL, { findings: ["f2", "f1"], uncovered: ["f1", "u1"] }),
  job("rear/bumper", { findings: ["f3"] }),
];

function known(entries: LocalEntry[] = [], change: Partial<Known> = {}): Known {
  return { car: CAR, queue: queue({ jobs }), entries, setup: setup(), ...change };
}

const bent = (id: string) =>
  entry("report.filed", { zone: "front-left", findings: [{ component: "wheel", condition: "bent" }] }, { id });
const mine = { mine: true, sending: "waiting" as const, arrival: 2 };

test("finishing covers the findings shown, ascending", () => {
  expect(findingsShown(WHEEL, known())).toEqual(["f1", "f2"]);
  expect(findingsShown("front-left/hub", known())).toEqual([]);
});

test("this phone's own findings that the queue can't know of are shown, so they are covered", () => {
  expect(findingsShown(WHEEL, known([held(bent("n"), mine)]))).toEqual(["f1", "f2", "n"]);
  expect(findingsShown(WHEEL, known([held(bent("n"), { mine: true, arrival: 2 })]))).toContain("n");
  expect(findingsShown(WHEEL, known([held(bent("n"), { mine: true, arrival: 1 })]))).not.toContain("n");
  expect(findingsShown(WHEEL, known([held({ ...bent("n"), car: "42" }, mine)]))).not.toContain("n");
});

test("what another phone wrote and no queue has shown is not covered", () => {
  expect(findingsShown(WHEEL, known([held(bent("n"), { arrival: 2 })]))).toEqual(["f1", "f2"]);
});

test("an own finding that was amended away is not covered", () => {
  const away = entry("report.amended", { replaces: ["n"], zone: "rear" }, { id: "m", subject: "n" });
  expect(findingsShown(WHEEL, known([held(bent("n"), mine), held(away, mine)]))).toEqual(["f1", "f2"]);
});

test("a look covers what is uncovered, the findings, and this phone's own repair", () => {
  const repair = entry("job.finished", { covers: ["f1"] }, { id: "z", subject: WHEEL });
  const other = entry("job.finished", { covers: [] }, { id: "y", subject: "rear/bumper" });
  expect(lookedAt(WHEEL, known([held(repair, mine), held(other, mine)]))).toEqual(["f1", "f2", "u1", "z"]);
});

test("a look covers a failed look of this phone, but not a passed one or one undone", () => {
  const failed = entry("inspection.failed", { covers: [] }, { id: "x", subject: WHEEL });
  const passed = entry("inspection.passed", { covers: [] }, { id: "p", subject: WHEEL });
  const repair = entry("job.finished", { covers: [] }, { id: "z", subject: WHEEL });
  const undo = entry("entry.voided", { voids: ["z"] });
  const all = [failed, passed, repair, undo].map((one) => held(one, mine));
  expect(lookedAt(WHEEL, known(all))).toEqual(["f1", "f2", "u1", "x"]);
});

test("releasing covers the entries behind every job shown", () => {
  expect(releaseCovers(known([held(bent("n"), mine)]))).toEqual(["f1", "f2", "f3", "n", "u1"]);
  expect(releaseCovers(known([], { queue: null }))).toEqual([]);
});

test("starts run until something ends them; undone ends end nothing", () => {
  const start = (id: string, person: string) => entry("job.started", {}, { id, person, subject: WHEEL });
  const both = [start("s1", "p-maru"), start("s2", "p-jo")].map((one) => held(one));
  expect(runningStarts(WHEEL, known(both))).toEqual(["s1", "s2"]);
  const stop = held(entry("job.stopped", { ends: ["s1"] }, { id: "e", subject: WHEEL }));
  expect(runningStarts(WHEEL, known([...both, stop]))).toEqual(["s2"]);
  const undo = held(entry("entry.voided", { voids: ["e"] }));
  expect(runningStarts(WHEEL, known([...both, stop, undo]))).toEqual(["s1", "s2"]);
  expect(startsToStop(WHEEL, "p-jo", known(both))).toEqual(["s2"]);
  expect(startsToStop(WHEEL, "p-scribe", known(both))).toEqual(["s1", "s2"]);
});

test("keys of a body: findings, checks of symptoms, and unknown where nothing is named", () => {
  const map = setup().car_map;
  const body = (change: object) => ({ ...EMPTY_BODY, ...change });
  expect(keysOf(body({ zone: "rear" }), map)).toEqual(["rear/unknown"]);
  expect(keysOf(body({}), map)).toEqual(["unknown/unknown"]);
  expect(keysOf(body({ symptoms: ["long-pedal"] }), map)).toEqual(["cabin/master-cylinder", "front-left/brake-hose"]);
  expect(keysOf(body({ zone: "rear", symptoms: ["rattle"] }), map)).toEqual(["rear/unknown"]);
  expect(keysOf(body({ findings: [{ component: "wheel", condition: "bent" }] }), map)).toEqual(["unknown/wheel"]);
});
