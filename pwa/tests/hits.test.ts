/** What grouping reports and keeping a part write. Over a real store; the network is not there. */

import { beforeEach, expect, test } from "vitest";
import type { Core } from "../src/flow/core";
import { groupReports, retainPart, takeApart } from "../src/flow/hits";
import { uuid7 } from "../src/kit/uuid7";
import { NOTHING_SAID } from "../src/report/grouping";
import { keepAnswer, SETUP_KEY } from "../src/store/answers";
import type { Db } from "../src/store/db";
import { settle, waitingEntries } from "../src/store/entries";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, entry, joined, phone, setup } from "./making";

let db: Db;
let core: Core;

beforeEach(async () => {
  db = await phone();
  core = freshCore(db, "p-maru", () => AT_MS);
  const answer = { log_id: "l", events: [setup()] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 1 });
  await joined(db, "p-maru", "d-1", { roles: ["co-driver"] });
  await core.refresh();
});

const written = async () => (await waitingEntries(db)).map(({ kind, subject, data }) => ({ kind, subject, data }));

test("reports of one hit are an entry about none of them alone", async () => {
  await groupReports(core, { ...NOTHING_SAID, reports: ["b", "a"], property_hit: "Fence" }, null);
  expect(await written()).toEqual([
    { kind: "incident.grouped", subject: null, data: { reports: ["a", "b"], property_hit: "Fence" } },
  ]);
  expect(core.snapshot().state.message).toEqual({ text: "Saved: reports of one hit.", undo: null });
});

test("a change comes after what it takes over, though that phone's clock ran an hour ahead", async () => {
  const old = entry("incident.grouped", { reports: ["a", "b"], title: "Bank" }, { id: uuid7(AT_MS + 3_600_000) });
  await settle(db, { log_id: "l", cursor: 1, accepted: [], rejected: [], heard: [old], new_log: false }, AT);
  await core.refresh();
  await groupReports(core, { ...NOTHING_SAID, reports: ["b", "c"] }, null);
  const [made] = await waitingEntries(db);
  expect(made?.data).toEqual({ reports: ["b", "c"], replaces: [old.id] });
  expect((made?.id ?? "") > old.id).toBe(true);
  expect(Date.parse(made?.at ?? "")).toBe(AT_MS);
});

test("a grouping is taken apart by one of no reports", async () => {
  await takeApart(core, "g1");
  expect(await written()).toEqual([
    { kind: "incident.grouped", subject: null, data: { reports: [], replaces: ["g1"] } },
  ]);
});

test("a kept part is about its job and can be undone", async () => {
  const kept = { tag: "T 7", shelf: "B", part: null };
  await retainPart(core, "left-side/mirror", kept);
  expect(await written()).toEqual([{ kind: "part.retained", subject: "left-side/mirror", data: kept }]);
  const [made] = await waitingEntries(db);
  expect(core.snapshot().state.message?.undo).toBe(made?.id);
});
