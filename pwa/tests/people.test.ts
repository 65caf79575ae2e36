/** Several people on one phone: PINs, a scribe for others, looks only by the inspector's own PIN, what was set aside. */

import { beforeEach, expect, test } from "vitest";
import { asideGroups, asideHere, leaveOutGroup, reviewAside } from "../src/flow/quarantine";
import type { Core } from "../src/flow/core";
import { finishJobs, inspect } from "../src/flow/jobs";
import { voidEntry } from "../src/flow/undo";
import type { Finish, Inspection } from "../src/flow/model";
import { checkPin, setPin } from "../src/flow/pins";
import { keepAnswer, queueKey, SETUP_KEY } from "../src/store/answers";
import type { Db } from "../src/store/db";
import { waitingEntries } from "../src/store/entries";
import { identitiesHere } from "../src/store/identities";
import { json, NO_NETWORK, problem } from "./fake_server";
import { freshCore } from "./fresh_core";
import { AT, CAR, EVENT, job, joined, phone, queue, setup } from "./making";
import "./quick_pins";

const KEYS = ["front-left/wheel", "rear/bumper"];
const INSPECTION: Inspection = {
  signed: KEYS.map((key) => ({ job: key, verdict: "passed", checks: [] })),
  until: null,
  shown_to: null,
  official_said: null,
  note: null,
};
let db: Db;
let core: Core;
let now_ms = Date.parse(AT);

beforeEach(async () => {
  db = await phone();
  now_ms = Date.parse(AT);
  core = freshCore(db, "p-jo", () => now_ms);
  const devices = [{ device: "d-9", person: "p-maru", key: null, shut_out_at: null }];
  await keep(SETUP_KEY, { log_id: "l", events: [setup()], devices });
  const jobs = KEYS.map((key, at) => job(key, { findings: [`f${at}`], uncovered: [`f${at}`] }));
  await keep(queueKey(EVENT, CAR), queue({ jobs }).answer);
  await joined(db, "p-jo", "d-1", { roles: ["mechanic"], name: "Jo" });
  await joined(db, "p-maru", "d-2", { roles: ["co-driver"], name: "Maru" });
  await core.refresh();
});

const keep = (key: string, answer: unknown) => keepAnswer(db, { key, answer, etag: null, heard_at: AT, arrivals: 99 });

test("nobody looks without a PIN of his own, and nothing is written with a wrong one", async () => {
  const by = (pin: string) => inspect(core, INSPECTION, pin);
  await expect(by("")).rejects.toThrow("no PIN on this phone yet");
  await setPin(core, "471147", "");
  await expect(by("")).rejects.toThrow("not the PIN of Jo");
  await expect(by("000000")).rejects.toThrow("not the PIN of Jo");
  expect(await waitingEntries(db)).toEqual([]);
  await by("471147");
  expect((await waitingEntries(db)).map((one) => [one.kind, one.person])).toEqual([
    ["inspection.passed", "p-jo"],
    ["inspection.passed", "p-jo"],
  ]);
});

test("another person's PIN signs nothing, though both are on this phone", async () => {
  await setPin(core, "471147", "");
  core.page.person = "p-maru";
  await core.refresh();
  await setPin(core, "909090", "");
  await expect(inspect(core, INSPECTION, "471147")).rejects.toThrow("not the PIN of Maru");
  await checkPin(core, "d-1", "471147");
});

test("wrong tries slow down even for the right PIN, until the time is over", async () => {
  await setPin(core, "471147", "");
  for (const pin of ["1", "2"]) await expect(checkPin(core, "d-1", pin)).rejects.toThrow("Try again.");
  await expect(checkPin(core, "d-1", "3")).rejects.toThrow("Try again in 5 seconds");
  await expect(checkPin(core, "d-1", "471147")).rejects.toThrow("Too many wrong PINs");
  now_ms += 5_000;
  await checkPin(core, "d-1", "471147");
  await expect(checkPin(core, "d-1", "5")).rejects.toThrow("Try again.");
});

test("a PIN is changed only by who knows it, is six digits, and stands in no store in plain", async () => {
  await expect(setPin(core, "12", "")).rejects.toThrow("6 digits");
  await setPin(core, "582258", "");
  expect(core.snapshot().state.identity?.has_pin).toBe(true);
  await expect(setPin(core, "123456", "999999")).rejects.toThrow("not the PIN");
  await setPin(core, "123456", "582258");
  await checkPin(core, "d-1", "123456");
  const kept = (await identitiesHere(db)).map((one) => Object.values(one.pin ?? {}).map(String));
  expect(JSON.stringify(kept)).not.toMatch(/471147|"123456"/);
});

test("a scribe ticks several jobs for others: one entry each, who did it named, undone as one", async () => {
  const finish: Omit<Finish, "said_at"> = {
    action: "replace",
    minutes: null,
    mechanics: 2,
    parts: [],
    repairers: ["p-maru"],
    temporary: false,
  };
  await finishJobs(
    core,
    KEYS.map((key) => ({ job: key, finish: { ...finish, said_at: null } })),
  );
  const written = await waitingEntries(db);
  expect(written.map((one) => [one.kind, one.subject, one.person, one.data])).toEqual(
    KEYS.map((key, at) => ["job.finished", key, "p-jo", { ...finish, covers: [`f${at}`], ends: [] }]),
  );
  await voidEntry(core, core.snapshot().state.message?.undo as string, "mis-tap");
  expect((await waitingEntries(db)).at(-1)?.data).toEqual({ voids: written.map((one) => one.id), reason: "mis-tap" });
});

test("what was set aside shows newest first with who brought it; without the server it says so", async () => {
  const item = { sha256: "a", raw: "{}", code: "unsigned", what: "", received_at: AT, brought_by: "d-9" };
  core.fetch = async () => json(200, [item, { ...item, sha256: "b", brought_by: null }]);
  expect((await asideHere(core)).map((one) => [one.sha256, one.brought_by_person])).toEqual([
    ["b", null],
    ["a", "p-maru"],
  ]);
  core.fetch = async () => problem(403, "not-allowed", "Not for these roles");
  await expect(asideHere(core)).rejects.toThrow("Not for these roles");
  core.fetch = () => NO_NETWORK(null as never, "", {}) as Promise<Response>;
  await expect(asideHere(core)).rejects.toThrow("did not answer");
  await expect(reviewAside(core, "a", "accepted", "so")).rejects.toThrow("nothing was changed");
});

test("much of one device is decided on at once, and the device is blocked first where that is wanted", async () => {
  const group = {
    brought_by: "d-9",
    waiting: 301,
    cars: ["41"],
    codes: { "wrong-shape": 301 },
    first_at: AT,
    last_at: AT,
  };
  core.fetch = async () => json(200, [group, { ...group, brought_by: null, waiting: 5 }]);
  expect((await asideGroups(core)).map((one) => [one.waiting, one.brought_by_person])).toEqual([[301, "p-maru"]]);
  core.fetch = async () => problem(404, "not-found", "Not held here");
  expect(await asideGroups(core), "a server of 0.1 knows of no groups").toEqual([]);
  const calls: unknown[] = [];
  core.fetch = async (url, init) => {
    calls.push([init.method, url, init.body && JSON.parse(init.body as string)]);
    return init.method === "DELETE" ? new Response(null, { status: 204 }) : json(200, { left_out: 301 });
  };
  const decision = ["POST", "/api/v1/set-aside/groups", { brought_by: "d-9", upto: AT, reason: "nobody wrote this" }];
  await leaveOutGroup(core, group, "nobody wrote this", false);
  expect(calls).toEqual([decision]);
  await leaveOutGroup(core, group, "nobody wrote this", true);
  expect(calls.slice(1)).toEqual([["DELETE", "/api/v1/devices/d-9", undefined], decision]);
  core.fetch = async () => problem(403, "not-allowed", "Not for these roles");
  await expect(leaveOutGroup(core, group, "so", true)).rejects.toThrow("Not for these roles");
});

test("a decision goes out with its reason, and starts a round that fetches what it changed", async () => {
  const calls: unknown[] = [];
  let rounds = 0;
  core.written = () => {
    rounds += 1;
  };
  core.fetch = async (url, init) => {
    calls.push([url, init.method, JSON.parse(init.body as string)]);
    return new Response(null, { status: 204 });
  };
  await reviewAside(core, "a".repeat(64), "discarded", "nobody wrote this");
  expect(calls).toEqual([
    [`/api/v1/set-aside/${"a".repeat(64)}/review`, "POST", { verdict: "discarded", reason: "nobody wrote this" }],
  ]);
  expect(rounds).toBe(1);
});
