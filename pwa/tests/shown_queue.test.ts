/** From the store to the screen: the server's queue, or this phone's own in its place. Over a real store. */

import { beforeEach, expect, test } from "vitest";
import type { Queue } from "../src/kit/api";
import type { Place } from "../src/flow/place";
import { readShownQueue } from "../src/flow/shown_queue";
import { queueAnswer } from "../src/queue/answer";
import { lookOf } from "../src/report/fresh";
import type { LocalQueue } from "../src/report/queue_source";
import { keepAnswer, queueKey } from "../src/store/answers";
import type { Db } from "../src/store/db";
import { addEntries, entriesHere } from "../src/store/entries";
import { writeLook, writeMeta } from "../src/store/meta";
import { AT, AT_MS, CAR, draft, EVENT, job, phone, queue, setup } from "./making";

let db: Db;
const SETUP = setup({ rates: "r" });

beforeEach(async () => {
  db = await phone();
});

async function read(own: LocalQueue | null = null, change: Partial<Place> = {}) {
  const held = await entriesHere(db);
  const setup_record = { key: "setup", answer: null, etag: null, heard_at: AT, arrivals: 0 };
  const place = { setup: SETUP, setup_record, events: [], car: CAR, held, all_held: held, gaps: [], ...change };
  return readShownQueue(db, { ...place, setup: place.setup ?? SETUP, car: CAR }, "p-jo", own, AT_MS);
}

async function hear(change: Partial<Queue>, arrivals: number) {
  const { answer } = queue({ rates: "r", ...change });
  await keepAnswer(db, { key: queueKey(EVENT, CAR), answer, etag: null, heard_at: AT, arrivals });
}

test("a hit logged with no server is worked out, shown as the phone's own, and holds the car", async () => {
  await hear({ hash: "s" }, 0);
  await writeMeta(db, "unreachable", true);
  await addEntries(db, [draft("e1")], AT);
  const first = await read();
  expect([first.queue_from, first.queue?.answer.hash]).toEqual(["server", "s"]);
  const wanted = first.own_wanted;
  expect(wanted?.patience_ms).toBe(0);
  if (!wanted) return;

  const own = { answer: queueAnswer(wanted.ask), arrivals: wanted.arrivals, worked_out_at: AT };
  const then = await read(own);
  expect(then.queue_from).toBe("phone");
  expect(then.queue?.answer.jobs.map((one) => one.job)).toEqual(["front-left/unknown"]);
  expect(then.release).toMatchObject({ shown: "hold", reasons: [{ job: "front-left/unknown", needs: "inspection" }] });
  expect(then.own_wanted?.key).toBe(wanted.key);
});

test("once the server has answered about it, its answer is shown and nothing is to be worked out", async () => {
  await addEntries(db, [draft("e1")], AT);
  await hear({ hash: "s", entries: 1 }, 1);
  const own = { answer: queue({ hash: "p" }).answer, arrivals: 1, worked_out_at: AT };
  expect(await read(own)).toMatchObject({ queue_from: "server", own_wanted: null, queue: { answer: { hash: "s" } } });
});

test("what was worked out of another car or event is not shown", async () => {
  await writeMeta(db, "unreachable", true);
  await addEntries(db, [draft("e1")], AT);
  for (const change of [{ car: "42" }, { event: "another" }]) {
    const own = { answer: queue({ hash: "p", ...change }).answer, arrivals: 1, worked_out_at: AT };
    expect(await read(own)).toMatchObject({ queue: null, queue_from: "server" });
  }
});

test("nothing open is not said on the phone's own word, though all was passed", async () => {
  await writeMeta(db, "unreachable", true);
  await hear({ hash: "s", release: "nothing-open" }, 0);
  await addEntries(db, [draft("e1")], AT);
  const own = { answer: queue({ hash: "p", release: "nothing-open" }).answer, arrivals: 1, worked_out_at: AT };
  expect((await read(own)).release.shown).toBe("not-known");
});

test("a set-up kept by an older version of the app has no rate table: the server's last answer stays", async () => {
  await writeMeta(db, "unreachable", true);
  await addEntries(db, [draft("e1")], AT);
  const old = { ...SETUP, rate_table: undefined as never };
  expect((await read(null, { setup: old })).own_wanted).toBeNull();
});

test("a queue that is all new to somebody who never looked is told from one in which all came since a look", async () => {
  const found = (id: string) => queue({ jobs: [job("rear/bumper", { findings: [id] })] }).answer;
  await hear(found("f1"), 0);
  expect(await read()).toMatchObject({ has_looked: false, fresh_jobs: ["rear/bumper"] });
  await writeLook(db, "p-jo", EVENT, CAR, lookOf(found("f1")));
  expect(await read()).toMatchObject({ has_looked: true, fresh_jobs: [] });
  await hear(found("f2"), 0);
  expect(await read()).toMatchObject({ has_looked: true, fresh_jobs: ["rear/bumper"] });
});
