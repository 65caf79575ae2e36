/** The outbox against a server and a network that do what they do in the woods. */

import { beforeEach, expect, test } from "vitest";
import type { Db } from "../src/store/db";
import { addEntries, countEntries, entriesHere, waitingEntries } from "../src/store/entries";
import { identitiesHere } from "../src/store/identities";
import { readMeta } from "../src/store/meta";
import { countBadPhotos, keepDraftPhoto, settlePhoto, waitingPhotos } from "../src/store/photos";
import { syncRound } from "../src/sync/round";
import { CUT, FakeServer, json, NO_NETWORK, PORTAL, problem } from "./fake_server";
import { AT, AT_MS, draft, entry, joined, phone } from "./making";

let db: Db;
let server: FakeServer;

beforeEach(async () => {
  db = await phone();
  server = new FakeServer();
  server.tokens.set("token of d-1", "d-1");
  await joined(db, "p-maru", "d-1");
});

const round = (person = "p-maru") => syncRound({ db, fetch: server.fetch, now: () => AT_MS }, person);
const write = (...names: string[]) =>
  addEntries(
    db,
    names.map((name) => draft(name)),
    AT,
  );
const states = async () => Object.fromEntries((await entriesHere(db)).map((held) => [held.entry.id, held.sending]));

const PHOTO = "a".repeat(64);

async function writeWithPhotos(...photos: string[]) {
  for (const photo of photos) await keepDraftPhoto(db, { photo, bytes: new ArrayBuffer(3), type: "image/jpeg" }, AT);
  await addEntries(db, [draft("with-photos", "d-1", "p-maru", photos)], AT);
}

test("what waits goes out in order, what is new comes in, byte for byte", async () => {
  server.store(entry("report.filed", { zone: "rear" }, { id: "other", device: "d-9" }));
  const written = await write("a", "b");
  expect(await round()).toMatchObject({ outcome: "reached", changed: true });
  expect(server.ids()).toEqual(["other", "a", "b"]);
  expect(server.log[1]?.text).toBe(JSON.stringify(written[0]));
  expect(await states()).toEqual({ a: "sent", b: "sent", other: "sent" });
  expect(await readMeta(db, "cursor")).toBe(3);
});

test("nobody joined: nothing is asked", async () => {
  db = await phone();
  expect(await round()).toMatchObject({ outcome: "idle" });
  expect(server.calls).toEqual([]);
});

test("F28: a captive portal's page is no acknowledgement", async () => {
  await write("a");
  server.faults = [PORTAL];
  expect(await round()).toMatchObject({ outcome: "unreachable" });
  expect(await states()).toEqual({ a: "waiting" });
  await round();
  expect(await states()).toEqual({ a: "sent" });
});

test("F28: JSON of somebody else's is none either", async () => {
  await write("a");
  const nonsense = [{ ok: true }, [], null, { log_id: "x", cursor: 1, accepted: "a", rejected: [], entries: [] }];
  server.faults = nonsense.map((body) => () => Response.json(body));
  for (const _ of nonsense) expect((await round()).outcome).toBe("unreachable");
  expect(await states()).toEqual({ a: "waiting" });
  expect(await readMeta(db, "log_id")).toBeNull();
});

test("F28: an answer without the log's name or a whole cursor is none, however right the rest of it looks", async () => {
  await write("a");
  const good = { log_id: "x", cursor: 1, accepted: ["a"], rejected: [], entries: [], more: false };
  const spoilt = [{ log_id: undefined }, { log_id: 7 }, { cursor: undefined }, { cursor: 1.5 }, { cursor: "1" }];
  server.faults = spoilt.map((change) => () => Response.json({ ...good, ...change }));
  for (const _ of spoilt) expect((await round()).outcome).toBe("unreachable");
  expect(await states()).toEqual({ a: "waiting" });
  server.faults = [() => Response.json(good)];
  await round();
  expect(await states()).toEqual({ a: "sent" });
});

test("F1: the answer is cut after the server stored: sent again, stored once", async () => {
  await write("a", "b");
  server.faults = [CUT];
  expect((await round()).outcome).toBe("unreachable");
  expect(server.ids()).toEqual(["a", "b"]);
  expect(await states()).toEqual({ a: "waiting", b: "waiting" });
  await round();
  expect(server.ids()).toEqual(["a", "b"]);
  expect(await states()).toEqual({ a: "sent", b: "sent" });
});

test("no network, a server in trouble: all is kept, and Retry-After is heard", async () => {
  await write("a");
  const busy = () =>
    new Response("{}", { status: 503, headers: { "Retry-After": "7", "Content-Type": "application/problem+json" } });
  server.faults = [NO_NETWORK, busy];
  expect(await round()).toMatchObject({ outcome: "unreachable", retry_after_s: null });
  expect(await round()).toMatchObject({ outcome: "unreachable", retry_after_s: 7 });
  expect(await states()).toEqual({ a: "waiting" });
});

test("a server that falls over a batch is told from no signal: all is kept, and goes out once it is well", async () => {
  await write("a");
  const problem = { type: "https://shuntbook.invalid/problems/unforeseen", title: "Unforeseen error", status: 500 };
  server.faults = [
    () => Response.json(problem, { status: 500, headers: { "Content-Type": "application/problem+json" } }),
  ];
  expect(await round()).toMatchObject({ outcome: "failed", changed: false });
  expect(await states()).toEqual({ a: "waiting" });
  // A proxy's own page about a server that is away says nothing of the server.
  server.faults = [() => new Response("<h1>Oh</h1>", { status: 500, headers: { "Content-Type": "text/html" } })];
  expect(await round()).toMatchObject({ outcome: "unreachable" });
  expect(await round()).toMatchObject({ outcome: "reached" });
  expect(await states()).toEqual({ a: "sent" });
});

test("only ids that were sent and are listed count", async () => {
  await write("a", "b");
  server.faults = [(s) => Response.json({ ...s.sync({ log_id: null, cursor: 0, entries: [] }), accepted: ["a", "z"] })];
  server.faults.push(NO_NETWORK);
  await round();
  expect(await states()).toEqual({ a: "sent", b: "waiting" });
});

test("F4: one bad of many needs attention, the good go on, and it is not sent for ever", async () => {
  await write("a", "bad", "c");
  server.refuses.set("bad", "wrong-shape");
  await round();
  expect(await states()).toEqual({ a: "sent", bad: "attention", c: "sent" });
  const bad = (await entriesHere(db)).find((held) => held.entry.id === "bad");
  expect(bad?.problem?.type).toMatch(/wrong-shape$/);
  const before = server.calls.length;
  await round();
  expect(server.calls.slice(before).flatMap((call) => call.entries)).toEqual([]);
});

test("F3: a conflict needs attention and the phone's own bytes stay", async () => {
  const [own] = await write("a");
  server.store(entry("report.filed", { zone: "elsewhere" }, { id: "a" }));
  await round();
  const [held] = await entriesHere(db);
  expect(held).toMatchObject({ sending: "attention", entry: own });
});

test("a server that refuses whole batches: the one it means is found, the others go out", async () => {
  await write("a", "b", "bad", "d", "e");
  const refuse = () => problem(422, "too-large", "no");
  const fetch = server.fetch;
  server.fetch = (url, init) => {
    const isBad =
      url.endsWith("/sync") && JSON.parse(init.body as string).entries.some((e: { id: string }) => e.id === "bad");
    return isBad ? Promise.resolve(refuse()) : fetch(url, init);
  };
  await round();
  expect(await states()).toEqual({ a: "sent", b: "sent", bad: "attention", d: "sent", e: "sent" });
});

test("more than 500 entries go out in batches of at most 500, all of them", async () => {
  await write(...Array.from({ length: 1203 }, (_, i) => `n${i}`));
  await round();
  expect(server.calls.every((call) => call.entries.length <= 500)).toBe(true);
  expect(new Set(server.ids()).size).toBe(1203);
  expect(await countEntries(db, "waiting")).toBe(0);
});

test("many pages come in, all of them", async () => {
  server.page = 7;
  for (let i = 0; i < 30; i++) server.store(entry("report.filed", {}, { id: `o${i}`, device: "d-9" }));
  await round();
  expect(await entriesHere(db)).toHaveLength(30);
});

test("F25: a new log, or one that is behind this phone: everything held goes out again, others' entries and photos too", async () => {
  server.store(entry("report.filed", {}, { id: "other", device: "d-9", person: "p-jo" }));
  await writeWithPhotos(PHOTO);
  await round();
  await write("b");
  const fresh = new FakeServer();
  fresh.log_id = "log-2";
  fresh.tokens = server.tokens;
  server = fresh;
  await round();
  expect(server.ids().toSorted()).toEqual(["b", "other", "with-photos"]);
  expect(server.log.find((one) => one.entry.id === "other")?.entry.person).toBe("p-jo");
  expect(server.photos.has(PHOTO)).toBe(true);
  expect(await readMeta(db, "log_id")).toBe("log-2");
  expect(await countEntries(db, "waiting")).toBe(0);

  server.log = server.log.slice(0, 1);
  await round();
  expect(server.ids().toSorted()).toEqual(["b", "other", "with-photos"]);
});

test("an empty restored server under the same name gets everything again", async () => {
  await write("a", "b");
  await round();
  server.log = [];
  await round();
  expect(server.ids().toSorted()).toEqual(["a", "b"]);
  expect(await readMeta(db, "cursor")).toBe(2);
});

test("who is sent back by the server asks from there before a device beside it moves on the cursor that they share", async () => {
  await write("a", "b", "c");
  await round();
  server.tokens.set("token of d-2", "d-2");
  await joined(db, "p-maru", "d-2", { joined_at: "2026-05-16T14:00:00+02:00" });
  server.page = 2;
  let asked = 0;
  let is_sent_back = true;
  const { fetch } = server;
  // Of a device that was sent nothing yet, until it has asked from the beginning.
  server.fetch = async (url, init) => {
    const said = await fetch(url, init);
    if (server.calls.at(-1)?.token !== "token of d-2") return said;
    asked += 1;
    is_sent_back &&= JSON.parse(init.body as string).cursor > 0;
    return is_sent_back ? json(200, { ...(await said.json()), cursor: 0, entries: [], more: true }) : said;
  };
  await round();
  expect(is_sent_back).toBe(false);
  expect(asked).toBeLessThan(5);
  expect(await states()).toEqual({ a: "sent", b: "sent", c: "sent" });
  expect(await readMeta(db, "cursor")).toBe(3);
});

test("two people on one phone: each entry goes out with its own device's token, whoever speaks now", async () => {
  await joined(db, "p-jo", "d-2");
  server.tokens.set("token of d-2", "d-2");
  await addEntries(db, [draft("a"), draft("j", "d-2", "p-jo"), draft("b")], AT);
  await round("p-jo");
  const sent = server.calls.flatMap((call) => call.entries.map((one) => [one.id, call.token]));
  expect(Object.fromEntries(sent)).toEqual({ a: "token of d-1", b: "token of d-1", j: "token of d-2" });
});

test("F12: 401 while sending: all is kept with its author, and goes out after joining again", async () => {
  await write("a");
  server.tokens.clear();
  expect(await round()).toMatchObject({ outcome: "idle" });
  expect(await states()).toEqual({ a: "waiting" });
  expect((await identitiesHere(db))[0]?.refused).toBe(true);
  await joined(db, "p-maru", "d-7", { joined_at: "2026-05-16T14:00:00Z" });
  server.tokens.set("token of d-7", "d-7");
  await round();
  expect(server.log[0]?.entry).toMatchObject({ id: "a", person: "p-maru", device: "d-1", seq: 1 });
  expect(await states()).toEqual({ a: "sent" });
});

test.each([
  ["the newer one", ["d-2"]],
  ["each", ["d-1", "d-2"]],
])("of two devices of one phone %s is told to begin again, and does at once", async (_, told) => {
  server.store(entry("report.filed", { zone: "rear" }, { id: "other", device: "d-9" }));
  await write("a", "b");
  await round();
  // As where a server that refused the first is put back and takes it again, or where both come into an event.
  server.tokens.set("token of d-2", "d-2");
  for (const device of told) server.unsent.add(`token of ${device}`);
  await joined(db, "p-maru", "d-2", { joined_at: "2026-05-16T14:00:00+02:00" });
  await addEntries(db, [draft("c", "d-2")], AT);
  Object.assign(server, { calls: [], page: 1 });
  await round();
  expect(await states()).toEqual({ a: "sent", b: "sent", c: "sent", other: "sent" });
  expect(await readMeta(db, "cursor")).toBe(4);
  expect(server.calls.length).toBeLessThan(20);
  server.calls = [];
  await round();
  expect(server.calls.map((call) => call.entries)).toEqual([[]]);
});

test("F12: one person's dead token holds up nobody else's entries", async () => {
  await joined(db, "p-jo", "d-2");
  server.tokens = new Map([["token of d-2", "d-2"]]);
  await addEntries(db, [draft("a"), draft("j", "d-2", "p-jo")], AT);
  expect((await round()).outcome).toBe("reached");
  expect(server.ids().toSorted()).toEqual(["a", "j"]);
  expect(server.log.find((one) => one.entry.id === "a")?.entry.person).toBe("p-maru");
});

test("F20: entries go before photos, and a photo that no answer names is not sent", async () => {
  await writeWithPhotos(PHOTO);
  server.faults = [() => null, PORTAL];
  expect((await round()).outcome).toBe("unreachable");
  expect(server.calls.map((call) => call.path)).toEqual(["/sync", `/photos/${PHOTO}`]);
  expect(await states()).toEqual({ "with-photos": "sent" });
  expect(await waitingPhotos(db)).toEqual([PHOTO]);
  await round();
  expect(await waitingPhotos(db)).toEqual([]);
});

test("F17: a photo that is refused or can't be read needs attention; the others go on", async () => {
  const [gone, bad, good] = ["1", "2", "3"].map((digit) => digit.repeat(64)) as [string, string, string];
  await writeWithPhotos(gone, bad, good);
  const empty = {
    photo: gone,
    bytes: new ArrayBuffer(0),
    type: "image/jpeg",
    problem: null,
    device: "d-1",
    held_at: AT,
  };
  await db.put("photos", { ...empty, sending: "waiting" });
  server.faults = [() => null, () => problem(422, "bad-photo", "not a picture")];
  expect((await round()).outcome).toBe("reached");
  expect([...server.photos.keys()]).toEqual([good]);
  expect(await countBadPhotos(db)).toBe(2);
  expect(await states()).toEqual({ "with-photos": "sent" });
});

test("a photo already sent is not sent again", async () => {
  await writeWithPhotos(PHOTO);
  await settlePhoto(db, PHOTO, null);
  await round();
  expect(server.calls.map((call) => call.path)).toEqual(["/sync"]);
});

test("an entry written while a round is under way goes out in that round", async () => {
  await write("a");
  server.faults = [
    async (s, _path, init) => {
      await write("late");
      return Response.json(s.sync(JSON.parse(init.body as string)));
    },
  ];
  await round();
  expect(server.ids()).toEqual(["a", "late"]);
  expect(await waitingEntries(db)).toEqual([]);
});
