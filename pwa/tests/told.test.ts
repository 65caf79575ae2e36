/** What everybody is told of who may be believed, and what a manager may accept; people in other events on one phone. */

import { beforeEach, expect, test } from "vitest";
import { endRebuild, knowInvite, rebuildDone } from "../src/flow/rebuilding";
import type { Core } from "../src/flow/core";
import type { Aside, SecondInvite, Setup } from "../src/kit/api";
import { toldOf } from "../src/report/told";
import { answerRecord, keepAnswer, SETUP_KEY } from "../src/store/answers";
import { readMeta, writeMeta } from "../src/store/meta";
import { addEntries } from "../src/store/entries";
import type { Db } from "../src/store/db";
import { areApart } from "../src/sync/whose_cursor";
import { syncRound } from "../src/sync/round";
import { canAccept } from "../src/view/aside/reading";
import { FakeServer, json, NO_NETWORK, problem } from "./fake_server";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, draft, entry, EVENT, joined, phone, setup } from "./making";

const people = [{ person: "p-maru", name: "Maru", roles: ["inspector" as const], skills: [] }];
const INVITE: SecondInvite = { invite: 3, person: "p-maru", invited_by: "p-jo", at: AT, device: null };
const heard = (more: Partial<Setup>): Setup => ({ log_id: "l", events: [setup({ people })], devices: [], ...more });

test("a rebuild and an invite for somebody who has a phone are told to everybody in the event, else nothing", () => {
  const tells = (more: Partial<Setup>, event = EVENT) => toldOf(heard(more), event, "p-jo", []);
  expect(tells({ rebuild: false, owners: ["p-jo"], second_invites: [] })).toBeNull();
  expect(tells({})).toBeNull();
  expect(tells({ rebuild: true, owners: ["p-jo"] })).toMatchObject({ rebuild: true, owner: true });
  expect(tells({ second_invites: [INVITE], owners: [] })).toEqual({
    rebuild: false,
    owner: false,
    second_invites: [INVITE],
    first_rules: false,
  });
  expect(tells({ second_invites: [INVITE] }, "another")).toBeNull();
});

test("an owner ends a rebuild, its list is fetched, an invite is known: by the server's word alone", async () => {
  const core: Core = freshCore(await phone(), "p-jo", () => AT_MS);
  const calls: string[] = [];
  core.fetch = async (url, init) => {
    calls.push(`${init.method} ${url}`);
    const done = [{ at: AT, person: "p-jo", act: "device", what: "d-9" }];
    return init.method === "GET" ? json(200, { under_way: true, done }) : new Response(null, { status: 204 });
  };
  expect((await rebuildDone(core)).map((one) => one.what)).toEqual(["d-9"]);
  await endRebuild(core);
  await knowInvite(core, 3);
  expect(calls).toEqual(["GET /api/v1/rebuild", "DELETE /api/v1/rebuild", "POST /api/v1/invites/3/known"]);
  core.fetch = async () => problem(403, "not-allowed", "For an owner");
  await expect(endRebuild(core)).rejects.toThrow("For an owner");
  core.fetch = () => NO_NETWORK(null as never, "", {}) as Promise<Response>;
  await expect(rebuildDone(core)).rejects.toThrow("did not answer");
});

test("what nobody's signature shows is accepted only in a rebuild, an inspection never, an odd time always", () => {
  const aside = (code: string, kind: "job.started" | "inspection.passed"): Aside =>
    ({ code, raw: JSON.stringify(entry(kind, { covers: [] } as never)) }) as Aside;
  expect(canAccept(aside("unsigned", "job.started"), true)).toBe(true);
  expect(canAccept(aside("unsigned", "job.started"), false)).toBe(false);
  expect(canAccept(aside("unsigned", "inspection.passed"), true)).toBe(false);
  expect(canAccept(aside("odd-time", "inspection.passed"), false)).toBe(true);
  expect(canAccept(aside("conflict", "job.started"), true)).toBe(false);
});

let db: Db;
let server: FakeServer;
const round = (person: string) => syncRound({ db, fetch: server.fetch, now: () => AT_MS }, person);

beforeEach(async () => {
  db = await phone();
  server = new FakeServer();
  for (const device of ["d-1", "d-2"]) server.tokens.set(`token of ${device}`, device);
});

test("people of one phone in the same events share one place in the log, in other events each has its own", async () => {
  const one = await joined(db, "p-jo", "d-1");
  const other = await joined(db, "p-maru", "d-2");
  expect(areApart([one, { ...other, events: one.events }], [])).toBe(false);
  expect(areApart([one, { ...other, events: ["another"] }], [])).toBe(true);
  const both = [...people, { person: "p-jo", name: "Jo", roles: [], skills: [] }];
  expect(areApart([one, other], [setup({ people: both })])).toBe(false);
  expect(areApart([one, other], [setup({ people })])).toBe(true);
});

test("what one was sent is asked for again by the other, who may be sent more of it", async () => {
  await joined(db, "p-jo", "d-1", { events: [EVENT] });
  await addEntries(db, [draft("a"), draft("b")], AT);
  await round("p-jo");
  expect(await readMeta(db, "cursor")).toBe(2);
  await joined(db, "p-maru", "d-2", { events: [EVENT, "another"] });
  const cursors: number[] = [];
  const asked = server.sync.bind(server);
  server.sync = (body) => {
    cursors.push(body.cursor);
    return asked(body);
  };
  await round("p-maru");
  await round("p-maru");
  await round("p-jo");
  expect(cursors).toEqual([0, 2, 0]);
  expect(await readMeta(db, "cursors")).toEqual({ "d-1": 2, "d-2": 2 });
});

test("a set-up of another server of 0.1 that tells nothing leaves all as it was", async () => {
  await keepAnswer(db, { key: SETUP_KEY, answer: heard({}), etag: null, heard_at: AT, arrivals: 1 });
  await writeMeta(db, "log_id", "log-1");
  await joined(db, "p-jo", "d-1");
  const core = freshCore(db, "p-jo", () => AT_MS);
  await core.refresh();
  expect(core.snapshot().state.told).toBeNull();
  expect((await answerRecord(db, SETUP_KEY))?.etag).toBeNull();
});
