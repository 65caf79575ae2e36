/** What is on the screen while a season's entries are read: the log to tap, and nothing that would have to follow from them. */

import { expect, test } from "vitest";
import type { RunningCore } from "../src/flow/core";
import { showFirst } from "../src/flow/opening";
import type { Snapshot } from "../src/flow/state";
import type { Entry } from "../src/kit/api";
import { keepAnswer, SETUP_KEY } from "../src/store/answers";
import type { Db } from "../src/store/db";
import { settle } from "../src/store/entries";
import { writeMeta } from "../src/store/meta";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, CAR, entry, joined, phone, setup } from "./making";

const PAGE = 120;
const CARS = [
  { car: CAR, label: "41" },
  { car: "42", label: "42" },
];

/** A co-driver's phone with two cars to choose from and so many pages, the newest entry of all about the second car. */
async function van(pages: number): Promise<Db> {
  const db = await phone();
  await joined(db, "p-maru", "d-1");
  const answer = { events: [setup({ cars: CARS })] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: '"1"', heard_at: AT, arrivals: 0 } as never);
  for (let page = 0; page < pages; page++) {
    const heard = Array.from({ length: PAGE }, (_, at) => {
      const seq = page * PAGE + at + 1;
      return entry("report.filed", { stage: "SS1" }, { id: `r${String(seq).padStart(5, "0")}`, seq, car: "42" });
    }) as Entry[];
    await settle(db, { log_id: "l", cursor: page + 1, accepted: [], rejected: [], heard, new_log: false }, AT);
  }
  return db;
}

/** Return what was shown before the entries were read. */
async function shown(db: Db, hash = ""): Promise<Snapshot[]> {
  const all: Snapshot[] = [];
  const core = { ...freshCore(db, "p-maru", () => AT_MS), show: (one: Snapshot) => all.push(one) };
  core.page.hash = hash;
  await showFirst(core as unknown as RunningCore);
  return all;
}

test("with many pages the log of the car that was open last is there first, and says that it is reading", async () => {
  const db = await van(4);
  await writeMeta(db, "opened_car", "42");
  const [first, ...more] = await shown(db);
  expect(more).toEqual([]);
  expect(first?.state).toMatchObject({
    ready: true,
    reading: true,
    car: "42",
    entries: [],
    advice: false,
    queue: null,
  });
  const core = freshCore(db, "p-maru", () => AT_MS);
  await core.refresh();
  expect(core.snapshot().state).toMatchObject({ reading: false, car: "42" });
  expect(core.snapshot().state.entries).toHaveLength(4 * PAGE);
});

test("a car that was open last gives way to the one that was chosen, and to what the entries say", async () => {
  const db = await van(4);
  await writeMeta(db, "opened_car", CAR);
  const core = freshCore(db, "p-maru", () => AT_MS);
  await core.refresh();
  expect(core.snapshot().state.car).toBe("42");
  await writeMeta(db, "last_car", "42");
  expect((await shown(db))[0]?.state.car).toBe("42");
});

test("few entries are read at once, and so are many where no car is known or another screen is to be shown", async () => {
  const few = await van(3);
  await writeMeta(few, "opened_car", "42");
  expect(await shown(few)).toEqual([]);
  const many = await van(4);
  expect(await shown(many)).toEqual([]);
  await writeMeta(many, "opened_car", "42");
  for (const hash of ["#/reports", "#/me", "#/log/r00001"]) expect(await shown(many, hash)).toEqual([]);
  expect(await shown(many, "#/log")).toHaveLength(1);
});
