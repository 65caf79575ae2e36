/** What the phone need not ask for again, from what syncs said; over a real store and a server of a few lines. */

import { beforeEach, expect, test, vi } from "vitest";
import { keepAnswer, queueKey, SETUP_KEY } from "../src/store/answers";
import { asOf, confirm, isCurrent, isSetupCurrent, knows } from "../src/store/current";
import type { Db } from "../src/store/db";
import { addEntries } from "../src/store/entries";
import { readMeta, writeMeta } from "../src/store/meta";
import { fetchQueue } from "../src/sync/answers";
import { syncRound } from "../src/sync/round";
import { FakeServer } from "./fake_server";
import { AT, AT_MS, CAR, draft, EVENT, entry, joined, phone, queue } from "./making";

const KEY = queueKey(EVENT, CAR);
const HERE = { event: EVENT, car: CAR };

let db: Db;
let server: FakeServer;

beforeEach(async () => {
  db = await phone();
  server = new FakeServer();
  server.tokens.set("token of d-1", "d-1");
  server.versions = { setup: "s1", set_aside: "0-0" };
  await joined(db, "p-maru", "d-1");
});

const sync = () => syncRound({ db, fetch: server.fetch, now: () => AT_MS }, "p-maru");

/** Sync, and keep a queue as it is fetched then. */
async function hear() {
  await sync();
  const arrivals = await readMeta(db, "arrivals");
  const record = { key: KEY, answer: queue().answer, etag: null, heard_at: AT, arrivals };
  await keepAnswer(db, { ...record, as_of: await asOf(db) });
}

const logged = (id: string, car: string) =>
  server.store(entry("report.filed", { zone: "rear" }, { id, device: "d-9", car }));
const isHeld = () => isCurrent(db, KEY, HERE);

test("a queue is asked for again after an entry of its own car, and not after another's", async () => {
  expect(await isHeld()).toBe(false);
  await hear();
  expect(await isHeld()).toBe(true);
  logged("other", "42");
  await sync();
  expect(await isHeld()).toBe(true);
  logged("own", CAR);
  await sync();
  expect(await isHeld()).toBe(false);
  await hear();
  expect(await isHeld()).toBe(true);
});

test("a car that changed while another was looked at is asked for when it is looked at again", async () => {
  await hear();
  logged("own", CAR);
  await sync();
  logged("other", "42");
  await sync();
  await sync();
  expect(await isHeld()).toBe(false);
});

test("an entry of this phone changes its car as anybody's does", async () => {
  await hear();
  await addEntries(db, [draft("mine")], AT);
  await sync();
  expect(await isHeld()).toBe(false);
});

test.each([{ setup: "s2" }, { set_aside: "1-0" }])(
  "after another version everything is asked for: %o",
  async (change) => {
    await hear();
    server.versions = { setup: "s1", set_aside: "0-0", ...change };
    await sync();
    expect(await isHeld()).toBe(false);
    expect(await isCurrent(db, KEY, null)).toBe(false);
  },
);

test("a new log starts again, though its places are lower than those of the old one", async () => {
  for (const id of ["a", "b", "c"]) logged(id, CAR);
  await hear();
  server.log_id = "log-2";
  server.log = [];
  server.versions = { setup: "of log-2", set_aside: "0-0" };
  logged("d", CAR);
  await hear();
  expect(await isHeld()).toBe(true);
  logged("e", CAR);
  await sync();
  expect(await isHeld()).toBe(false);
});

test("a server of 0.1.0 says nothing of it: everything is asked for each time, also after a newer one's word", async () => {
  await hear();
  server.versions = null;
  await sync();
  expect([await isHeld(), await isSetupCurrent(db, SETUP_KEY), await asOf(db)]).toEqual([false, false, null]);
  await hear();
  expect(await isHeld()).toBe(false);
});

test.each([
  ['"s1"', true],
  ['W/"s1"', true],
  ['"s0"', false],
  [null, false],
])("a set-up with the tag %s is the one in force: %s", async (etag, isOne) => {
  await sync();
  await keepAnswer(db, { key: SETUP_KEY, answer: {}, etag, heard_at: AT, arrivals: 0 });
  expect(await isSetupCurrent(db, SETUP_KEY)).toBe(isOne);
});

test("a set-up as it was read last is believed where its tag is in force, else the store is asked: another tab may have fetched it", async () => {
  await sync();
  const record = (etag: string) => ({ key: SETUP_KEY, answer: {}, etag, heard_at: AT, arrivals: 0 });
  expect(await isSetupCurrent(db, SETUP_KEY, record('"s1"'))).toBe(true);
  expect(await isSetupCurrent(db, SETUP_KEY, record('"s0"'))).toBe(false);
  await keepAnswer(db, record('"s1"'));
  expect(await isSetupCurrent(db, SETUP_KEY, record('"s0"'))).toBe(true);
});

test("news of what the phone has sent or heard is none; anything beyond that, or out of reach, is", async () => {
  await addEntries(db, [draft("mine")], AT);
  await sync();
  const here = { cursor: 1, setup: "s1", set_aside: "0-0" };
  expect(await knows(db, here)).toBe(true);
  expect(await knows(db, { ...here, cursor: 2 })).toBe(false);
  expect(await knows(db, { ...here, setup: "s2" })).toBe(false);
  expect(await knows(db, { ...here, set_aside: "1-0" })).toBe(false);
  await writeMeta(db, "unreachable", true);
  expect(await knows(db, here)).toBe(false);
});

test("a queue that still holds covers entries of other cars, and never one that has not gone out", async () => {
  await hear();
  logged("other", "42");
  await sync();
  const later = "2026-05-16T14:00:00.000Z";
  await confirm(db, KEY, await readMeta(db, "arrivals"), later);
  const held = await db.get("answers", KEY);
  expect([held?.arrivals, held?.heard_at]).toEqual([await readMeta(db, "arrivals"), later]);
  await addEntries(db, [draft("mine")], AT);
  await confirm(db, KEY, await readMeta(db, "arrivals"), AT);
  expect(await db.get("answers", KEY)).toEqual(held);
});

test("the same question, asked twice at once, is one call; asked when more is known, it is another", async () => {
  const paths: string[] = [];
  const answered: ((response: Response) => void)[] = [];
  const fetch = (path: RequestInfo | URL) => {
    paths.push(String(path));
    return new Promise<Response>((good) => answered.push(good));
  };
  const ask = (token = "token of d-1") => fetchQueue({ db, fetch, now: () => AT_MS }, token, EVENT, CAR);
  const called = (times: number) => vi.waitFor(() => expect(paths).toHaveLength(times));
  await sync();
  const twice = [ask(), ask()];
  await called(1);
  logged("own", CAR);
  await sync();
  const later = ask();
  await called(2);
  const others = ask("token of d-2");
  await called(3);
  for (const good of answered) good(Response.json(queue().answer));
  expect(await Promise.all([...twice, later, others])).toEqual(["new", "new", "new", "new"]);
  void ask();
  await called(4);
});
