/** The hand-over walk: the draft on the phone, what signing writes, which photos go with it, the paper that is set. */

import { beforeEach, expect, test, vi } from "vitest";
import type { Core } from "../src/flow/core";
import { signWalk, takeReadings } from "../src/flow/walk";
import { EMPTY_BODY } from "../src/report/body";
import {
  beginWalk,
  bodyOfMark,
  lackingOf,
  leaveOut,
  progressOf,
  signersOf,
  viewsLeft,
  type WalkDraft,
  walkData,
} from "../src/report/walk_draft";
import { VIEWS } from "../src/report/walk_list";
import { photosOfDraft } from "../src/report/walk_photos";
import { marksOf, photoAt, walkOut, walksOf } from "../src/report/walks";
import { keepAnswer, SETUP_KEY } from "../src/store/answers";
import type { Db } from "../src/store/db";
import { photosOf, waitingEntries } from "../src/store/entries";
import { photosHere } from "../src/store/handover";
import { dropOldDrafts, keepDraftPhoto, keepHeardPhoto, photoHere, waitingPhotos } from "../src/store/photos";
import { dropWalkDraft, keepWalkDraft, walkDraftHere } from "../src/store/walks";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, CAR, entry, EVENT, heldAll, joined, phone, setup } from "./making";

// There is no worker here that could shrink a picture.
vi.mock(import("../src/flow/photos"), async (original) => ({ ...(await original()), keepPhoto: async () => sha("c") }));

const DAY_MS = 86_400_000;
const sha = (letter: string) => letter.repeat(64);
const agreement = { agreement: "hire-7", car: CAR, customer: "Kiri Oda" };

function out(change: Partial<WalkDraft> = {}): WalkDraft {
  return { ...beginWalk({ walk: "out", agreement: null, team: "Vera", kit: null }), ...change };
}

const marked = { key: "m", zone: "left-side", findings: [], photos: [sha("b")], note: "old" };

test("a walk begins with the agreement's customer, who has the phone, and the things of the walk before", () => {
  const draft = beginWalk({ walk: "return", agreement: agreement as never, team: "Vera", kit: ["Jack"] });
  expect(draft).toMatchObject({ agreement: "hire-7", kit: [{ item: "Jack", aboard: null }] });
  expect([draft.team.name, draft.customer.name]).toEqual(["Vera", "Kiri Oda"]);
  expect(out().kit.length).toBeGreaterThan(10);
});

test("eighteen views are asked for, once each: eight round the car, roof, four arches, underside twice, and inside", () => {
  expect(new Set(VIEWS).size).toBe(18);
  expect(VIEWS.filter((view) => view.startsWith("arch-"))).toHaveLength(4);
  expect(VIEWS.filter((view) => view.startsWith("under-"))).toHaveLength(2);
});

test("a view is done when it was taken or left out for a reason, and signing waits for all", () => {
  const draft = out({ photos: { front: { photo: sha("a"), why_none: "" }, roof: { photo: null, why_none: "" } } });
  expect(progressOf(draft).photos).toEqual([1, 18]);
  expect(viewsLeft(draft)).toHaveLength(17);
  expect(lackingOf(draft)).toEqual(["views", "customer"]);
  const all = leaveOut(draft, viewsLeft(draft), "No time");
  expect(all.photos.front?.photo).toBe(sha("a"));
  expect(lackingOf({ ...all, customer: { ...all.customer, name: "Kiri" } })).toEqual([]);
});

test("where the customer does not sign, two different people of the team do", () => {
  const base = leaveOut(out(), VIEWS, "No time");
  const draft = { ...base, customer: { ...base.customer, name: "Kiri", how: "not-present" as const } };
  expect(lackingOf(draft)).toEqual(["witness"]);
  const same = { ...draft, witness: { ...draft.witness, name: "Vera " } };
  expect(lackingOf(same)).toEqual(["same-witness"]);
  const two = { ...draft, witness: { ...draft.witness, name: "Anni" } };
  expect(lackingOf(two)).toEqual([]);
  expect(signersOf(two).map(({ side, name }) => [side, name])).toEqual([
    ["team", "Vera"],
    ["customer", "Kiri"],
    ["team", "Anni"],
  ]);
});

test("a mark of the walk out was there before; one of the return is new damage", () => {
  expect(bodyOfMark(marked, "out").where).toBe("hand-over");
  expect(bodyOfMark(marked, "return")).toMatchObject({ where: "workshop", zone: "left-side", note: "old" });
});

test("the entry says what was put down, and nothing of what was not", () => {
  const draft = out({
    photos: { roof: { photo: null, why_none: "Too dark" }, front: { photo: sha("a"), why_none: "" } },
    fuel_percent: 75,
    tread: { "rear-left": 5.5 },
    fluids: { coolant: "low" },
    kit: [
      { item: "Jack", aboard: false },
      { item: "Keys", aboard: null },
    ],
  });
  expect(walkData(draft, ["r1"], [])).toEqual({
    walk: "out",
    fuel_percent: 75,
    tread: [{ place: "rear-left", mm: 5.5 }],
    pads: [],
    fluids: [{ fluid: "coolant", level: "low" }],
    kit: [{ item: "Jack", aboard: false }],
    photos: [
      { view: "front", photo: sha("a") },
      { view: "roof", why_none: "Too dark" },
    ],
    marks: ["r1"],
    signed: [],
    note: "",
  });
});

let db: Db;
let core: Core;

beforeEach(async () => {
  db = await phone();
  core = freshCore(db, "p-boss", () => AT_MS);
  const answer = { log_id: "l", events: [setup()] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 99 });
  await joined(db, "p-boss", "d-1", { roles: ["manager"] });
  await core.refresh();
});

const bytes = (letter: string) => ({ photo: sha(letter), bytes: new ArrayBuffer(3), type: "image/jpeg" });

test("signing writes the marks and the walk together, sends their photos, and forgets the draft", async () => {
  for (const letter of ["a", "b", "c"]) await keepDraftPhoto(db, bytes(letter), AT);
  const base = leaveOut(out(), VIEWS.slice(1), "No time");
  const photos = { ...base.photos, front: { photo: sha("a"), why_none: "" } };
  const draft = { ...base, photos, marks: [marked], customer: { ...base.customer, name: "Kiri" } };
  await keepWalkDraft(db, EVENT, CAR, draft);
  const id = await signWalk(core, draft, [new Blob(["ink"]), null]);
  const [mark, walk] = await waitingEntries(db);
  expect(mark).toMatchObject({ kind: "report.filed", seq: 1, data: { where: "hand-over", photos: [sha("b")] } });
  expect(walk).toMatchObject({ id, kind: "handover.signed", seq: 2, data: { marks: [mark?.id], walk: "out" } });
  expect(walk?.data).toMatchObject({
    signed: [
      { side: "team", name: "Vera", how: "on-screen", photo: sha("c") },
      { side: "customer", name: "Kiri", how: "on-screen" },
    ],
  });
  expect(photosOf(walk as never)).toEqual([sha("a"), sha("c")]);
  expect((await waitingPhotos(db)).sort()).toEqual([sha("a"), sha("b"), sha("c")]);
  const handed = await photosHere(db, await waitingEntries(db));
  expect(handed.map((one) => one.photo)).toEqual([sha("a"), sha("b"), sha("c")]);
  expect(await walkDraftHere(db, EVENT, CAR)).toBeNull();
});

test("the photos of a walk under way outlive a day; given up, they go", async () => {
  await keepDraftPhoto(db, bytes("a"), AT);
  await keepDraftPhoto(db, bytes("b"), AT);
  await keepDraftPhoto(db, bytes("c"), AT);
  const draft = out({ photos: { front: { photo: sha("a"), why_none: "" } }, marks: [marked] });
  expect(photosOfDraft(draft)).toEqual([sha("a"), sha("b")]);
  await keepWalkDraft(db, EVENT, CAR, draft);
  expect(await walkDraftHere(db, EVENT, CAR)).toEqual(draft);
  expect(await walkDraftHere(db, EVENT, "42")).toBeNull();
  await dropOldDrafts(db, AT_MS + 2 * DAY_MS);
  expect([await photoHere(db, sha("a")), await photoHere(db, sha("b"))]).not.toContain(null);
  expect(await photoHere(db, sha("c"))).toBeNull();
  await dropWalkDraft(db, EVENT, CAR);
  await dropOldDrafts(db, AT_MS + 2 * DAY_MS);
  expect(await photoHere(db, sha("a"))).toBeNull();
});

test("a photo that the server gave is kept to be seen without it, and is not sent back", async () => {
  await keepHeardPhoto(db, bytes("a"), AT);
  expect((await photoHere(db, sha("a")))?.sending).toBe("sent");
  expect(await waitingPhotos(db)).toEqual([]);
});

test("readings and the report that they call for are written together", async () => {
  const readings = [{ reading: "brake reservoir", value: "low", place: "engine-bay" }];
  await takeReadings(core, readings, { ...EMPTY_BODY, zone: "engine-bay", where: "service" });
  const [reading, report] = await waitingEntries(db);
  expect(reading).toMatchObject({ kind: "reading.taken", subject: null, data: readings[0] });
  expect(report).toMatchObject({ kind: "report.filed", subject: report?.id, data: { zone: "engine-bay" } });
  expect(core.snapshot().state.message?.undo, "a reading stays").toBeNull();
});

test("a walk that a later one replaces does not stand, and a return is compared with the walk out before it", () => {
  const first = entry("handover.signed", { walk: "out" }, { id: "w1" });
  const better = entry("handover.signed", { walk: "out", replaces: ["w1"], marks: ["r"] }, { id: "w2" });
  const back = entry("handover.signed", { walk: "return" }, { id: "w3" });
  const again = entry("handover.signed", { walk: "out", photos: [{ view: "front", photo: sha("a") }] }, { id: "w4" });
  const walks = walksOf([again, back, better, first], CAR);
  expect(walks.map((one) => one.id)).toEqual(["w2", "w3", "w4"]);
  expect(walkOut(walks, back as never)?.id).toBe("w2");
  expect(walkOut(walks)?.id).toBe("w4");
  expect(walkOut([])).toBeNull();
  expect(photoAt(walkOut(walks), "front")).toBe(sha("a"));
  expect(photoAt(walkOut(walks), "rear")).toBeNull();
  const mark = entry("report.filed", { zone: "roof", where: "hand-over" }, { id: "r" });
  expect(marksOf(heldAll(mark), better as never).map((one) => one.report)).toEqual(["r"]);
  const gone = entry("report.withdrawn", { replaces: ["r"] }, { subject: "r" });
  expect(marksOf(heldAll(mark, gone), better as never)).toEqual([]);
});
