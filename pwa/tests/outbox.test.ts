/** When the outbox speaks, and that one tab does. Times are fake; so is the network. */

import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Db } from "../src/store/db";
import { addEntries, countEntries } from "../src/store/entries";
import { LONGEST_MS, waitMs } from "../src/sync/backoff";
import { type Outbox, openOutbox, RESTING_MS } from "../src/sync/outbox";
import { LEASE_MS, type Locks, takeLead, workingLocks } from "../src/sync/leader";
import { FakeServer, json, NO_NETWORK } from "./fake_server";
import { AT, draft, joined, phone } from "./making";

let db: Db;
let server: FakeServer;
const open: Outbox[] = [];
let resting = false;
let chance = 0.5;

beforeEach(async () => {
  db = await phone();
  server = new FakeServer();
  resting = false;
  chance = 0.5;
  server.tokens.set("token of d-1", "d-1");
  await joined(db, "p-maru", "d-1");
});

afterEach(() => {
  vi.useRealTimers();
  for (const outbox of open.splice(0)) outbox.stop();
});

// fake-indexeddb needs setImmediate to run: only what the outbox itself waits on is faked.
const fakeTime = () =>
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout", "setInterval", "clearInterval", "Date"] });

function outboxOf(
  holder = "tab",
  locks: Locks | null = null,
  isHidden = () => false,
  onRound = async () => true,
): Outbox {
  const outbox = openOutbox({
    db,
    fetch: server.fetch,
    now: () => Date.now(),
    holder,
    person: () => "p-maru",
    onRound,
    isHidden,
    isResting: () => resting,
    locks: Promise.resolve(locks),
    chance: () => chance,
  });
  open.push(outbox);
  return outbox;
}

async function pass(ms: number) {
  await vi.advanceTimersByTimeAsync(ms);
  for (let i = 0; i < 50; i++) await new Promise((resolve) => setImmediate(resolve));
}

async function passUntil(done: () => Promise<boolean>, longest_ms: number): Promise<number> {
  for (let passed = 0; passed <= longest_ms; passed += 500) {
    if (await done()) return passed;
    await pass(500);
  }
  throw new Error(`not within ${longest_ms} ms`);
}

const isEmpty = async () => (await countEntries(db, "waiting")) === 0;

test("waits double up to the longest, spread by chance; a server's own wait counts", () => {
  expect([1, 2, 3, 4, 5, 50].map((failures) => waitMs(failures, 0.999999))).toEqual([
    1000,
    2000,
    4000,
    8000,
    LONGEST_MS,
    LONGEST_MS,
  ]);
  expect(waitMs(1, 0)).toBe(750);
  expect(waitMs(1, 0, 30)).toBe(30_000);
  expect(waitMs(1, 0, 86_400)).toBe(60_000);
});

test("F8: after the network heals the outbox is empty within 30 s with no new action", async () => {
  fakeTime();
  await addEntries(db, [draft("a")], AT);
  let isHealed = false;
  const fetch = server.fetch;
  server.fetch = (url, init) => (isHealed ? fetch(url, init) : Promise.reject(new TypeError("Failed to fetch")));
  await outboxOf().sync();
  await pass(120_000);
  expect(await isEmpty()).toBe(false);
  isHealed = true;
  expect(await passUntil(isEmpty, 30_000)).toBeLessThanOrEqual(30_000);
});

test("with nothing to send there is no timer", async () => {
  fakeTime();
  await outboxOf().sync();
  const calls = server.calls.length;
  await pass(600_000);
  expect(server.calls.length).toBe(calls);
});

test("a token that is refused is not tried every second", async () => {
  fakeTime();
  await addEntries(db, [draft("a")], AT);
  server.tokens.clear();
  await outboxOf().sync();
  await pass(50_000);
  expect(server.calls.length).toBe(1);
  server.tokens.set("token of d-1", "d-1");
  await passUntil(isEmpty, 90_000);
});

test("a sync during a round starts one more after it", async () => {
  const outbox = outboxOf();
  await addEntries(db, [draft("a")], AT);
  const first = outbox.sync();
  await addEntries(db, [draft("b")], AT);
  await Promise.all([first, outbox.sync()]);
  expect(server.ids().toSorted()).toEqual(["a", "b"]);
});

test("a sync that comes when a round is over but not yet done with starts another one at once", async () => {
  fakeTime();
  let rounds = 0;
  const outbox = outboxOf("tab", null, undefined, async () => {
    if (rounds++ > 0) return true;
    await addEntries(db, [draft("b")], AT);
    void outbox.sync();
    return true;
  });
  await outbox.sync();
  // No timer has moved.
  expect(server.ids()).toEqual(["b"]);
});

test("each try in vain waits longer, and the first after a good one is soon again", async () => {
  fakeTime();
  await addEntries(db, [draft("a")], AT);
  server.faults = Array.from({ length: 999 }, () => NO_NETWORK);
  const outbox = outboxOf();
  await outbox.sync();
  for (let i = 0; i < 24; i++) await pass(5_000);
  // 1 + 2 + 4 + 8 s, then every 12 at most: some 13 in two minutes, where a wait that never grows makes over a hundred.
  expect(server.calls.length).toBeGreaterThan(8);
  expect(server.calls.length).toBeLessThan(25);
  server.faults = [];
  await passUntil(isEmpty, 30_000);
  server.faults = Array.from({ length: 999 }, () => NO_NETWORK);
  await addEntries(db, [draft("b")], AT);
  await outbox.sync();
  const calls = server.calls.length;
  await pass(1_500);
  expect(server.calls.length).toBe(calls + 1);
});

test("an answer that is lost after a good round is asked for again as a round is, until it comes", async () => {
  fakeTime();
  let lost = 3;
  const asked: number[] = [];
  const outbox = outboxOf("tab", null, undefined, async () => {
    asked.push(Date.now());
    return lost-- <= 0;
  });
  await outbox.sync();
  for (let i = 0; i < 12; i++) await pass(5_000);
  const waits = asked.slice(1).map((at, i) => at - (asked[i] as number));
  expect(waits, "each longer than the one before, and none once all has come").toHaveLength(3);
  expect(waits).toEqual(waits.toSorted((a, b) => a - b));
});

test("F13: without Web Locks two tabs take turns, and no entry is sent twice", async () => {
  await addEntries(
    db,
    Array.from({ length: 40 }, (_, i) => draft(`n${i}`)),
    AT,
  );
  await Promise.all([outboxOf("one").sync(), outboxOf("two").sync()]);
  expect(server.calls.flatMap((call) => call.entries)).toHaveLength(40);
});

test("F13: the sending tab is killed: another takes over within 5 s", async () => {
  fakeTime();
  await addEntries(db, [draft("a")], AT);
  const beat = (in_ms: number) =>
    db.put("meta", { holder: "killed", until_ms: Date.now() + in_ms + LEASE_MS }, "lease");
  await beat(0);
  await outboxOf("other").sync();
  expect(await isEmpty()).toBe(false);
  // At the worst the other has just looked when the last beat comes.
  await pass(1);
  await beat(40);
  await passUntil(isEmpty, 5_000);
});

test("F13: opened while the lease of a tab that was killed still runs, the app asks as soon as it is over", async () => {
  fakeTime();
  await db.put("meta", { holder: "killed", until_ms: Date.now() + LEASE_MS }, "lease");
  await outboxOf("other").sync();
  expect(server.calls).toEqual([]);
  await passUntil(async () => server.calls.length === 1, 5_000);
});

test("F13: a tab whose write had to wait for another's takes no turn: that lease began after it read its clock", async () => {
  let clock_ms = 1_000;
  const waiting = new Proxy(db, {
    get(target, name) {
      if (name !== "transaction") return Reflect.get(target, name);
      return (...asked: Parameters<Db["transaction"]>) => {
        clock_ms += 2_000;
        void target.put("meta", { holder: "other", until_ms: clock_ms + LEASE_MS }, "lease");
        return target.transaction(...asked);
      };
    },
  });
  const work = vi.fn(async () => {});
  expect(await takeLead(waiting, "late", () => clock_ms, work, null)).toBe(false);
  expect(work).not.toHaveBeenCalled();
});

test("F13: a lease that another tab's rounded clock made a little late still holds", async () => {
  await db.put("meta", { holder: "other", until_ms: 1_100 + LEASE_MS }, "lease");
  expect(
    await takeLead(
      db,
      "early",
      () => 1_000,
      () => Promise.reject(new Error("two at once")),
      null,
    ),
  ).toBe(false);
});

test("a lease written under a clock that was ahead binds nobody", async () => {
  await db.put("meta", { holder: "past", until_ms: Date.now() + 3_600_000 }, "lease");
  expect(
    await takeLead(
      db,
      "now",
      () => Date.now(),
      async () => {},
      null,
    ),
  ).toBe(true);
  expect(await db.get("meta", "lease")).toBeNull();
});

test("a lease is given back though the work fails", async () => {
  const work = () => Promise.reject(new Error("broken"));
  await expect(takeLead(db, "a", () => Date.now(), work, null)).rejects.toThrow("broken");
  expect(
    await takeLead(
      db,
      "b",
      () => Date.now(),
      async () => {},
      null,
    ),
  ).toBe(true);
});

test("with Web Locks: who does not get the lock does not work, and looks again", async () => {
  fakeTime();
  await addEntries(db, [draft("a")], AT);
  let isFree = false;
  const request = (_name: string, _options: object, work: (lock: object | null) => unknown) => work(isFree ? {} : null);
  await outboxOf("tab", { request } as unknown as Locks).sync();
  await pass(1_000);
  expect(server.calls).toEqual([]);
  isFree = true;
  await passUntil(isEmpty, 5_000);
});

test("a hidden page with something waiting tries once a minute at most; shown again it tries at once", async () => {
  fakeTime();
  await addEntries(db, [draft("a")], AT);
  server.faults = Array.from({ length: 99 }, () => NO_NETWORK);
  const outbox = outboxOf("tab", null, () => true);
  await outbox.sync();
  for (let i = 0; i < 60; i++) await pass(10_000);
  expect(server.calls.length).toBeGreaterThan(8);
  expect(server.calls.length).toBeLessThanOrEqual(11);
  server.faults = [];
  await outbox.sync();
  expect(await isEmpty()).toBe(true);
});

test("a hidden page with nothing waiting lets the battery be", async () => {
  fakeTime();
  server.faults = Array.from({ length: 99 }, () => NO_NETWORK);
  await outboxOf("tab", null, () => true).sync();
  await pass(300_000);
  expect(server.calls.length).toBe(1);
});

test("a phone that spares its battery tries once a minute", async () => {
  fakeTime();
  resting = true;
  await addEntries(db, [draft("a")], AT);
  server.faults = [NO_NETWORK, NO_NETWORK];
  await outboxOf().sync();
  await pass(RESTING_MS - 1_000);
  expect(server.calls).toHaveLength(1);
  await pass(1_000);
  expect(server.calls).toHaveLength(2);
});

const FREE = {
  request: (_name: string, _options: object, work: (lock: object) => unknown) => Promise.resolve(work({})),
} as unknown as Locks;

/** Let the next timer run, wait until what it began has reached the server, and return how long it was waited for. */
async function nextTry(): Promise<number> {
  const [calls, from_ms] = [server.calls.length, Date.now()];
  await vi.advanceTimersToNextTimerAsync();
  const waited_ms = Date.now() - from_ms;
  // The round is over once the next timer stands.
  await until(async () => server.calls.length > calls && vi.getTimerCount() === 1);
  return waited_ms;
}

/** Wait with no time going by for the outbox; how often it looks guards against hanging, and judges no speed. */
async function until(isSo: () => Promise<boolean>): Promise<void> {
  for (let looks = 0; looks < 100_000; looks++) {
    if (await isSo()) return;
    await new Promise((resolve) => setImmediate(resolve));
  }
  throw new Error("it did not come about");
}

async function nextTries(count: number): Promise<number[]> {
  const waits: number[] = [];
  while (waits.length < count) waits.push(await nextTry());
  return waits;
}

const without = (times: number) => Array.from({ length: times }, () => NO_NETWORK);

test("each failure makes the wait longer, up to the longest; chance shortens it by a quarter at most", async () => {
  fakeTime();
  await addEntries(db, [draft("a")], AT);
  server.faults = without(20);
  chance = 0;
  await outboxOf("tab", FREE).sync();
  expect(await nextTries(6)).toEqual([750, 1_500, 3_000, 6_000, 9_000, 9_000]);
  chance = 0.5;
  expect((await nextTries(2))[1]).toBe(10_500);
});

test("once a round has brought something, the next failure is the first again", async () => {
  fakeTime();
  await addEntries(db, [draft("a")], AT);
  server.faults = without(5);
  chance = 0;
  const outbox = outboxOf("tab", FREE);
  await outbox.sync();
  expect(await nextTries(4)).toEqual([750, 1_500, 3_000, 6_000]);
  server.faults = [];
  await vi.advanceTimersToNextTimerAsync();
  await until(isEmpty);
  await outbox.sync();
  expect(vi.getTimerCount()).toBe(0);
  server.faults = without(5);
  await addEntries(db, [draft("b")], AT);
  await outbox.sync();
  expect(await nextTries(2)).toEqual([750, 1_500]);
});

test("a server that answers and takes nothing is a failure, too", async () => {
  fakeTime();
  await addEntries(db, [draft("a")], AT);
  const empty = { log_id: server.log_id, cursor: 0, accepted: [], rejected: [], entries: [], more: false };
  server.faults = Array.from({ length: 20 }, () => () => json(200, empty));
  chance = 0;
  await outboxOf("tab", FREE).sync();
  expect(await nextTries(3)).toEqual([750, 1_500, 3_000]);
});

test("Web Locks that are missing, refused or silent are no locks; those that answer are", async () => {
  const refuses = { request: () => Promise.reject(new DOMException("no", "SecurityError")) } as unknown as Locks;
  const silent = { request: () => new Promise(() => {}) } as unknown as Locks;
  const throws = () => {
    throw new DOMException("no", "SecurityError");
  };
  expect(await workingLocks(() => undefined)).toBeNull();
  expect(await workingLocks(throws)).toBeNull();
  expect(await workingLocks(() => refuses)).toBeNull();
  expect(await workingLocks(() => FREE)).toBe(FREE);
  vi.useFakeTimers();
  const asked = workingLocks(() => silent);
  await vi.advanceTimersByTimeAsync(60_000);
  expect(await asked).toBeNull();
});
