/** A server that lost everything gets it back: devices and set-ups from a manager's phone, entries and photos from all. */

import { beforeEach, expect, test } from "vitest";
import type { Device, Entry } from "../src/kit/api";
import { makeKey } from "../src/kit/device_key";
import { isGood } from "../src/kit/verifying";
import { answerRecord, filesKey, keepAnswer, SETUP_KEY, setupHere } from "../src/store/answers";
import type { Db } from "../src/store/db";
import { addEntries, countEntries, settle, waitingEntries } from "../src/store/entries";
import { keepHanded } from "../src/store/handover";
import { readMeta, writeMeta } from "../src/store/meta";
import { fetchSetup, mergedSetup } from "../src/sync/answers";
import { fetchFiles } from "../src/sync/managers_answers";
import { managerOf } from "../src/sync/manager";
import { syncRound } from "../src/sync/round";
import { FakeServer, json, NO_NETWORK } from "./fake_server";
import { AT, AT_MS, draft, EVENT, joined, phone, setup } from "./making";

const FILES = { event: EVENT, version: "v1", files: { "event.toml": "…" }, trusted: { old: "digest" } };
const known = (device: string, shut_out_at: string | null = null): Device => {
  const key = { kty: "EC" as const, crv: "P-256" as const, x: "x", y: device };
  return { device, person: "p-maru", key, shut_out_at };
};

let db: Db;
let server: FakeServer;
const round = () => syncRound({ db, fetch: server.fetch, now: () => AT_MS }, "p-boss");
const paths = () => server.calls.map((call) => call.path);

beforeEach(async () => {
  db = await phone();
  server = new FakeServer();
  server.log_id = "new";
  server.demands = true;
  server.tokens.set("token of d-b", "d-b");
  await joined(db, "p-boss", "d-b", { roles: ["manager"] });
  const answer = { log_id: "old", events: [setup()], devices: [known("d-1"), known("d-2", AT)] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 1 });
  await keepAnswer(db, { key: filesKey(EVENT), answer: FILES, etag: null, heard_at: AT, arrivals: 1 });
  await writeMeta(db, "log_id", "old");
  await writeMeta(db, "brought_to", "old");
  await writeMeta(db, "cursor", 7);
});

test("devices come before set-ups, both before the entries that are judged by them; nothing is left refused", async () => {
  await addEntries(db, [draft("a"), draft("b")], AT);
  await round();
  expect(server.ids().toSorted()).toEqual(["a", "b"]);
  expect(await countEntries(db, "attention")).toBe(0);
  // The first call meets the strange log; what it refuses counts for nothing.
  expect(paths().slice(0, 4)).toEqual(["/sync", "/setup", "/devices", `/events/${EVENT}`]);
  expect(server.devices).toEqual([known("d-1"), known("d-2", AT)]);
  expect(server.files.get(EVENT)).toEqual({ files: FILES.files, trusted: FILES.trusted });
});

test("it is brought once: neither the same log nor a server that has it all is brought anything again", async () => {
  await round();
  const before = paths().length;
  await round();
  expect(paths().slice(before)).toEqual(["/sync"]);
  server.log_id = "newer";
  await round();
  expect(paths().filter((path) => path === "/devices")).toHaveLength(1);
  expect(server.files.size).toBe(1);
});

test("a phone killed in between brings it with the next round, before anything else", async () => {
  await addEntries(db, [draft("a")], AT);
  server.faults = [() => null, NO_NETWORK];
  expect((await round()).outcome).toBe("unreachable");
  expect(await readMeta(db, "brought_to")).toBeNull();
  server.calls = [];
  await round();
  expect(paths()[0]).toBe("/setup");
  expect(server.ids()).toEqual(["a"]);
});

test("a server that falls over what is brought is brought it again", async () => {
  const problem = { type: "https://shuntbook.invalid/problems/unforeseen", title: "Unforeseen error", status: 500 };
  const falls = () => Response.json(problem, { status: 500, headers: { "Content-Type": "application/problem+json" } });
  server.faults = [() => null, falls];
  expect((await round()).outcome).toBe("unreachable");
  expect(await readMeta(db, "brought_to")).toBeNull();
  await round();
  expect(await readMeta(db, "brought_to")).toBe(server.log_id);
});

test("what is written where no server can be reached is signed all the same, also before all was brought", async () => {
  const key = await makeKey();
  await joined(db, "p-maru", "d-1", { key });
  await writeMeta(db, "brought_to", null);
  await addEntries(db, [draft("a")], AT);
  server.faults = [NO_NETWORK, NO_NETWORK, NO_NETWORK];
  expect((await round()).outcome).toBe("unreachable");
  const [waiting] = await waitingEntries(db);
  expect(waiting && (await isGood(waiting, key?.public as never))).toBe(true);
});

test("a server restored from a copy is behind: it gets the devices that it lacks, shut-outs too", async () => {
  server.log_id = "old";
  server.devices = [known("d-2")];
  server.events = [setup()];
  await round();
  expect(server.devices.slice(1)).toEqual([known("d-1"), known("d-2", AT)]);
  expect(server.files.size).toBe(0);
});

test("who is no manager brings nothing, whatever an empty server said at joining; the entries go out", async () => {
  server.tokens.set("token of d-1", "d-1");
  db = await phone();
  const answer = { log_id: "old", events: [setup()], devices: [known("d-1")] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 1 });
  await writeMeta(db, "log_id", "old");
  await joined(db, "p-maru", "d-1", { roles: ["manager"] });
  await addEntries(db, [draft("a")], AT);
  server.demands = false;
  await round();
  expect(paths().filter((path) => path !== "/sync")).toEqual([]);
  expect(server.ids()).toEqual(["a"]);
});

test("what a server refuses of it holds up nothing", async () => {
  await addEntries(db, [draft("a")], AT);
  server.demands = false;
  const refuse = () => json(403, { type: "x/not-allowed", title: "no", status: 403 }, "application/problem+json");
  server.faults = [() => null, () => null, refuse, refuse];
  expect((await round()).outcome).toBe("reached");
  expect(server.ids()).toEqual(["a"]);
  expect(await readMeta(db, "brought_to")).toBe("new");
});

test("a manager's token that is not taken makes way for others", async () => {
  server.tokens.clear();
  server.tokens.set("token of d-1", "d-1");
  await joined(db, "p-maru", "d-1");
  await writeMeta(db, "brought_to", null);
  await addEntries(db, [draft("a")], AT);
  server.demands = false;
  expect((await round()).outcome).toBe("reached");
  expect(server.ids()).toEqual(["a"]);
});

test("a set-up that the new server lacks stays here, and who was shut out stays so", async () => {
  const fetch = async () => json(200, { log_id: "new", events: [], devices: [known("d-2"), known("d-3")] });
  await fetchSetup({ db, fetch, now: () => AT_MS }, "t");
  const here = (await setupHere(db))?.answer;
  expect(here?.events.map((one) => one.event)).toEqual([EVENT]);
  expect(here?.devices).toEqual([known("d-2", AT), known("d-3"), known("d-1")]);
  const renamed = setup({ name: "Renamed" });
  expect(mergedSetup(here ?? null, { log_id: "new", events: [renamed], devices: [] }).events).toEqual([renamed]);
});

test("files are kept with every digest ever heard; a server that lacks the event takes none away", async () => {
  const ask = (status: number, body: unknown) =>
    fetchFiles({ db, fetch: async () => json(status, body), now: () => AT_MS }, "t", EVENT);
  await ask(404, { type: "x", title: "x" });
  expect((await answerRecord(db, filesKey(EVENT)))?.answer).toEqual(FILES);
  await ask(200, { version: "v2", files: {}, trusted: { later: "d" } });
  const held = (await answerRecord(db, filesKey(EVENT)))?.answer;
  expect(held).toEqual({ version: "v2", files: {}, trusted: { old: "digest", later: "d" } });
});

test("the manager who speaks comes before another; one that was refused never", async () => {
  const one = await joined(db, "p-a", "d-a", { roles: ["manager"] });
  const other = await joined(db, "p-b", "d-x", { roles: ["manager"] });
  expect(managerOf([one, other], [], "p-a")).toBe(one);
  expect(managerOf([one, other], [], null)).toBe(other);
  expect(managerOf([{ ...other, refused: true }], [], "p-b")).toBeNull();
  const people = [{ person: "p-a", name: "A", roles: ["driver" as const], skills: [] }];
  expect(managerOf([one], [setup({ people })], "p-a")).toBeNull();
});

test("a shut-out of a server that kept no numbers is brought with the highest number that it took", async () => {
  const out = [4, 9].map((seq) => ({ ...draft(`o${seq}`), seq, device: "d-2" }) as Entry);
  const [taken, refused] = out as [Entry, Entry];
  const said = { log_id: "old", cursor: 7, accepted: [], rejected: [], heard: [taken], new_log: false };
  await settle(db, said, AT);
  await keepHanded(db, [{ entry: refused, problem: null }], [], AT);
  server.devices = [{ ...known("d-b"), last_seq: null }];
  server.demands = false;
  await round();
  expect(server.devices.slice(1)).toEqual([
    { ...known("d-1"), last_seq: null },
    { ...known("d-2", AT), last_seq: 4 },
  ]);
});

test("a server of 0.1 is brought no number, a newer one the number that is higher than its own", async () => {
  const answer = { log_id: "old", events: [setup()], devices: [{ ...known("d-2", AT), last_seq: 4 }] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 1 });
  server.devices = [known("d-b")];
  await round();
  expect(server.devices.slice(1)).toEqual([known("d-2", AT)]);
  server.log_id = "newer";
  server.devices = [{ ...known("d-2", AT), last_seq: 3 }];
  await round();
  expect(server.devices.slice(1)).toEqual([{ ...known("d-2", AT), last_seq: 4 }]);
});
