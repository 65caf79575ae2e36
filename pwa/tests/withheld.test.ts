/** What stands in an entry's place on a phone: it counts, is shown and sent to nobody, and gives way to the entry. */

import { beforeEach, expect, test } from "vitest";
import type { Entry, Setup, Synced } from "../src/kit/api";
import { localParts } from "../src/report/queue_source";
import { entriesShown, setupShown } from "../src/report/road";
import { keepAnswer, SETUP_KEY } from "../src/store/answers";
import type { Db } from "../src/store/db";
import { addEntries, entriesHere, waitingEntries } from "../src/store/entries";
import { keepHanded } from "../src/store/handover";
import { writeMeta } from "../src/store/meta";
import { putBack } from "../src/store/put_back";
import { mergedSetup } from "../src/sync/answers";
import { syncRound } from "../src/sync/round";
import { FakeServer } from "./fake_server";
import { AT, AT_MS, CAR, draft, entry, held, joined, phone, queue, setup } from "./making";

const COST = entry("cost.adjusted", { line: "front-left/wheel", amount: "1.00", reason: "" }, { id: "cost" });
const standIn = (one: Entry, kind = "withheld") =>
  ({ ...one, kind, subject: "", data: {}, withheld: true }) as unknown as Entry;

let db: Db;
let server: FakeServer;
/** What each sync asked for as lacking. */
let asked: unknown[];

beforeEach(async () => {
  db = await phone();
  server = new FakeServer();
  asked = [];
  for (const [person, device] of [
    ["p-maru", "d-1"],
    ["p-vera", "d-2"],
  ] as const) {
    server.tokens.set(`token of ${device}`, device);
    await joined(db, person, device);
  }
  const people = [
    { person: "p-maru", name: "Maru", roles: ["mechanic" as const], skills: [] },
    { person: "p-vera", name: "Vera", roles: ["manager" as const], skills: [] },
  ];
  const answer = { log_id: "log-1", events: [setup({ people })], devices: [] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 0 });
  await writeMeta(db, "brought_to", "log-1");
});

/** Have the next sync answered with these entries. */
function answering(entries: Entry[], more: Partial<Synced> = {}) {
  server.faults.push((_, __, init) => {
    const body = JSON.parse(init.body as string);
    asked.push(body.lacks ?? null);
    const accepted = body.entries.map((one: Entry) => one.id);
    return Response.json({ log_id: "log-1", cursor: 1, accepted, rejected: [], entries, more: false, ...more });
  });
}
const round = (person: string) => syncRound({ db, fetch: server.fetch, now: () => AT_MS }, person);
const kinds = async () => (await entriesHere(db)).map((one) => [one.entry.id, one.entry.kind, one.sending]);

test("a manager on the mechanic's phone asks for what it was not sent, once, and the mechanic is told nothing of it", async () => {
  answering([standIn(COST)]);
  await round("p-maru");
  expect(await kinds()).toEqual([["cost", "withheld", "sent"]]);
  answering([COST]);
  await round("p-vera");
  expect(await kinds()).toEqual([["cost", "cost.adjusted", "sent"]]);
  answering([standIn(COST)], { cursor: 2 });
  await round("p-maru");
  expect(await kinds()).toEqual([["cost", "cost.adjusted", "sent"]]);
  expect(asked).toEqual([null, ["cost"], null]);
  const shown = async (role: "mechanic" | "manager") =>
    entriesShown({
      roles: [role],
      person: "p",
      car: CAR,
      setup: setup(),
      entries: await entriesHere(db),
      now_ms: AT_MS,
    });
  expect((await shown("manager")).map((one) => one.entry.id)).toEqual(["cost"]);
  expect(await shown("mechanic")).toEqual([]);
});

test.each([
  ["was taken meanwhile", true, "sent"],
  ["has only its id", false, "attention"],
])("what was refused goes out once more when what is withheld %s", async (_, isTaken, sending) => {
  const [mine] = await addEntries(db, [{ ...draft("cost"), device: "d-1" }], AT);
  const problem = { type: "/problems/unknown-device", title: "", status: 422, detail: "" };
  const rejected = [{ id: "cost", problem }] as Synced["rejected"];
  answering([], { accepted: [], rejected });
  await round("p-maru");
  expect((await entriesHere(db)).map((one) => one.sending)).toEqual(["attention"]);
  answering([standIn(mine as Entry)]);
  answering([], isTaken ? {} : { accepted: [], rejected });
  answering([]);
  await round("p-maru");
  expect(await kinds()).toEqual([["cost", mine?.kind, sending]]);
});

test("it is asked for again as somebody else only, and after more was withheld", async () => {
  for (const answer of [[standIn(COST)], [standIn(COST)], []]) answering(answer);
  await round("p-maru");
  await round("p-maru");
  await round("p-maru");
  answering([standIn(COST)]);
  await round("p-vera");
  answering([]);
  await round("p-vera");
  expect(asked).toEqual([null, ["cost"], null, ["cost"], null]);
});

test("a role that changes asks again", async () => {
  answering([standIn(COST)]);
  answering([standIn(COST)]);
  await round("p-maru");
  await round("p-maru");
  const people = [{ person: "p-maru", name: "Maru", roles: ["manager" as const], skills: [] }];
  const answer = { log_id: "log-1", events: [setup({ people })], devices: [] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 0 });
  answering([COST]);
  await round("p-maru");
  expect(await kinds()).toEqual([["cost", "cost.adjusted", "sent"]]);
});

test("what one brings in another's name is followed by a look with one's own eyes", async () => {
  await addEntries(db, [draft("a", "d-1", "p-maru")], AT);
  answering([standIn(COST)]);
  answering([COST]);
  await round("p-vera");
  expect((await kinds()).sort()).toEqual([
    ["a", "report.filed", "sent"],
    ["cost", "cost.adjusted", "sent"],
  ]);
});

test("another log: what stands for an entry is not sent", async () => {
  answering([standIn(COST)]);
  await round("p-maru");
  answering([], { log_id: "log-2" });
  await round("p-maru");
  expect(await waitingEntries(db)).toEqual([]);
});

test("the entry handed over takes its place, and a store put back knows it for what it is", async () => {
  answering([standIn(COST)]);
  await round("p-maru");
  const known = { identities: [], entries: await entriesHere(db), setup: null };
  const empty = await phone();
  await putBack(empty, known);
  expect(await empty.countFromIndex("entries", "sending", "withheld")).toBe(1);
  expect((await keepHanded(db, [{ entry: COST, problem: null }], [], AT)).fresh).toBe(1);
  expect(await kinds()).toEqual([["cost", "cost.adjusted", "waiting"]]);
});

test("it counts for the phone's own queue; one of another car keeps the phone from working one out", () => {
  const hit = entry("report.filed", { zone: "front-left" }, { id: "a" });
  const answer = queue({ entries: 2, jobs: [], rates: "r" }, { arrivals: 1 });
  const parts = (...entries: Entry[]) =>
    localParts({ car: CAR, queue: answer, entries: entries.map((one) => held(one)), rates: "r", unreachable: true });
  expect(parts(hit)).toBeNull();
  expect(parts(hit, standIn(COST))?.entries).toHaveLength(2);
  expect(parts(hit, standIn(COST), standIn({ ...COST, id: "b", car: "42" }, "withheld.car"))).toBeNull();
});

test("who is limited to a car is shown entries of that one alone", () => {
  const people = [{ person: "p-maru", name: "Maru", roles: ["co-driver" as const], skills: [], cars: [CAR] }];
  const entries = [CAR, "42"].map((car) => held(entry("report.filed", { zone: "rear" }, { id: car, car })));
  const input = { person: "p-maru", car: CAR, setup: setup({ people }, true), entries, now_ms: AT_MS };
  expect(entriesShown({ ...input, roles: ["co-driver"] }).map((one) => one.entry.car)).toEqual([CAR]);
  expect(entriesShown({ ...input, roles: ["co-driver", "mechanic"] })).toHaveLength(2);
});

test("agreements and prices that one person was told stay for that person, and are shown to no other", () => {
  const agreements = [{ agreement: "a-1", car: CAR, customer: "Lena" }];
  const full = setup({ agreements });
  const { agreements: _, ...less } = full;
  const together = (heard: typeof full) =>
    mergedSetup(
      { log_id: "l", events: [full], devices: [] } as Setup,
      { log_id: "l", events: [heard], devices: [] } as Setup,
    ).events[0];
  expect(together(less as typeof full)?.agreements).toEqual(agreements);
  expect(together({ ...full, agreements: [] })?.agreements).toEqual([]);
  expect(setupShown(full, ["mechanic"])?.agreements).toBeUndefined();
  expect(setupShown(full, ["manager"])).toBe(full);
  const table = { version: "r" } as NonNullable<typeof full.rate_table>;
  const told = { ...full, rates: "r", rate_table: table, van: {} };
  const { rate_table: __, van: ___, ...without } = told;
  const kept = (rates: string) =>
    mergedSetup(
      { events: [told], devices: [] } as unknown as Setup,
      { events: [{ ...without, rates }], devices: [] } as unknown as Setup,
    ).events[0]?.rate_table;
  expect(kept("r")).toBe(table);
  expect(kept("another")).toBeUndefined();
});
