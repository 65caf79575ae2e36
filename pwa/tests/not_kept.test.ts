/** What a server had no room for stays on the phone, and goes out again once a manager has decided on what is there. */

import { beforeEach, expect, test } from "vitest";
import { localParts } from "../src/report/queue_source";
import type { Db } from "../src/store/db";
import { addEntries, entriesHere } from "../src/store/entries";
import { syncRound } from "../src/sync/round";
import { FakeServer } from "./fake_server";
import { AT, AT_MS, CAR, draft, entry, held, joined, phone, queue } from "./making";

let db: Db;
let server: FakeServer;

beforeEach(async () => {
  db = await phone();
  server = new FakeServer();
  server.versions = { setup: "s", set_aside: "3-0" };
  server.tokens.set("token of d-1", "d-1");
  await joined(db, "p-maru", "d-1");
});

const round = () => syncRound({ db, fetch: server.fetch, now: () => AT_MS }, "p-maru");
const states = async () => Object.fromEntries((await entriesHere(db)).map((one) => [one.entry.id, one.sending]));

test("it waits for a decision, and is then sent once more; what was set aside stays as it is", async () => {
  await addEntries(db, [draft("a"), draft("b")], AT);
  server.refuses.set("a", "set-aside-full").set("b", "wrong-shape");
  await round();
  await round();
  expect(await states()).toEqual({ a: "attention", b: "attention" });
  const before = server.calls.filter((one) => one.entries.length > 0).length;
  server.refuses.delete("a");
  server.versions = { setup: "s", set_aside: "3-3" };
  await round();
  await round();
  expect(await states()).toEqual({ a: "sent", b: "attention" });
  const sent = server.calls.filter((one) => one.entries.length > 0).slice(before);
  expect(sent.map((one) => one.entries.map(({ id }) => id))).toEqual([["a"]]);
});

test("of what holds a car a hundred are named and the rest is counted, as the server does", () => {
  const names = Array.from({ length: 100 }, (_, n) => `n-${String(n).padStart(3, "0")}`);
  const review = [{ job: null, needs: "review" as const, entries: names, more: 7 }];
  const answer = queue({ entries: 0, jobs: [], rates: "r", hold_reasons: review }, { arrivals: 1 });
  const problem = { type: "x/wrong-shape", title: "", status: 422, detail: "" };
  const refused = held(entry("report.filed", { zone: "rear" }, { id: "a-new" }), {
    sending: "attention",
    problem,
    arrival: 2,
  });
  const parts = localParts({ car: CAR, queue: answer, entries: [refused], rates: "r", unreachable: true });
  expect(parts?.set_aside).toEqual(["a-new", ...names.slice(0, 99)]);
  expect(parts?.set_aside_more).toBe(8);
});
