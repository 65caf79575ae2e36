/** Drafts of set-ups: kept on the phone, one per event, and gone once they are in force; a new event is seen at once. */

import { beforeEach, expect, test } from "vitest";
import type { RunningCore } from "../src/flow/core";
import { checkSetup, dropSetupDraft, keepSetupDraft, putSetup } from "../src/flow/setup_files";
import { bookOf } from "../src/setup/files";
import { keepAnswer, filesKey, SETUP_KEY } from "../src/store/answers";
import type { Db } from "../src/store/db";
import { draftsHere, type SetupDraft } from "../src/store/setup_drafts";
import { json, problem } from "./fake_server";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, EVENT, joined, phone, setup } from "./making";
import { sampleFiles } from "./setup_files";

const NOTHING = { files: {}, cells: {} };

let db: Db;
let core: RunningCore;

const draft = (event = EVENT): SetupDraft => ({
  event,
  version: "v1",
  of: null,
  base: {},
  book: bookOf(sampleFiles()),
  saved_at: "",
});

const keep = (key: string, answer: unknown) => keepAnswer(db, { key, answer, etag: null, heard_at: AT, arrivals: 1 });

beforeEach(async () => {
  db = await phone();
  core = freshCore(db, "p-boss", () => AT_MS) as RunningCore;
  await keep(SETUP_KEY, { log_id: "l", events: [setup()], devices: [] });
  await joined(db, "p-boss", "d-1", { roles: ["manager"] });
  core.page.hash = "#/setup";
  await core.refresh();
});

test("a draft is read again as it was kept, the last one of each event", async () => {
  await keepSetupDraft(core, draft());
  await keepSetupDraft(core, { ...draft(), version: "v2" });
  await keepSetupDraft(core, draft("other"));
  const drafts = core.snapshot().state.drafts;
  expect(drafts.map((one) => [one.event, one.version])).toEqual([
    [EVENT, "v2"],
    ["other", "v1"],
  ]);
  expect(drafts[0]?.book).toEqual(draft().book);
  await dropSetupDraft(core, EVENT);
  expect((await draftsHere(db)).map((one) => one.event)).toEqual(["other"]);
});

test("drafts and files are for a manager's screens of setting up, and for no other", async () => {
  await keepSetupDraft(core, draft());
  await keep(filesKey(EVENT), { files: { "event.toml": "" }, version: "v1" });
  core.page.hash = "#/queue";
  await core.refresh();
  expect([core.snapshot().state.drafts, core.snapshot().state.files]).toEqual([[], []]);
  core.page.hash = "#/setup/x";
  await core.refresh();
  expect(core.snapshot().state.files.map((one) => one.event)).toEqual([EVENT]);
  await joined(db, "p-jo", "d-2", { roles: ["mechanic"] });
  core.page.person = "p-jo";
  await core.refresh();
  expect(core.snapshot().state.drafts).toEqual([]);
});

test("without a server a look says so, and the draft stays", async () => {
  await keepSetupDraft(core, draft());
  await expect(checkSetup(core, EVENT, NOTHING, null, "v1")).rejects.toThrow("The draft is kept on this phone");
  await expect(putSetup(core, EVENT, NOTHING, "v1", EVENT)).rejects.toThrow("The draft is kept on this phone");
  expect(await draftsHere(db)).toHaveLength(1);
});

test("what somebody else changed meanwhile is said with the server's words, and the draft stays", async () => {
  await keepSetupDraft(core, draft());
  core.fetch = async () => problem(409, "changed-meanwhile", "Somebody else changed it meanwhile");
  await expect(putSetup(core, EVENT, NOTHING, "v1", EVENT)).rejects.toThrow("Somebody else changed it meanwhile");
  expect(await draftsHere(db)).toHaveLength(1);
});

test("a draft that is in force is no draft any more; the version that was edited goes with it", async () => {
  await keepSetupDraft(core, draft());
  const bodies: unknown[] = [];
  core.fetch = async (_, init) => {
    bodies.push(JSON.parse(init.body as string));
    return json(200, { event: EVENT, rates: "" });
  };
  await putSetup(core, EVENT, { files: { "event.toml": "x" }, cells: {} }, "v1", EVENT);
  expect(bodies).toEqual([{ files: { "event.toml": "x" }, cells: {}, version: "v1" }]);
  expect(await draftsHere(db)).toEqual([]);
});

test("an event that came after a person joined can be chosen by whoever is in its people, and by nobody else", async () => {
  const [next, foreign] = [setup({ event: "next" }), setup({ event: "foreign", people: [] })];
  await keep(SETUP_KEY, { log_id: "l", events: [next, setup(), foreign], devices: [] });
  await core.refresh();
  expect(core.snapshot().state.setup?.event).toBe(EVENT);
  expect(core.snapshot().state.events.map((one) => one.event)).toEqual(["next", EVENT]);
});
