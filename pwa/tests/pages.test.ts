/** Entries that lie together in pages: none lost, none doubled, whatever comes after they were put there. */

import { expect, test } from "vitest";
import type { Entry } from "../src/kit/api";
import type { Db } from "../src/store/db";
import { addEntries, entriesHere, entryById, settle, waitingEntries } from "../src/store/entries";
import { keepHanded } from "../src/store/handover";
import { packOne } from "../src/store/packing";
import { readUpto } from "../src/store/pages";
import { putBack } from "../src/store/put_back";
import { AT, draft, entry, phone } from "./making";

const NEWS = { log_id: "l", cursor: 1, accepted: [], rejected: [], heard: [], new_log: false };
const DRIVER = { driver: "p-jo" };

const made = (count: number, from = 0): Entry[] =>
  Array.from({ length: count }, (_, at) =>
    entry("driver.changed", DRIVER, {
      id: `n${String(from + at).padStart(5, "0")}`,
      device: "d-9",
      seq: from + at + 1,
    }),
  );
const counts = async (db: Db) => ({
  single: await db.count("entries"),
  pages: await db.count("meta", IDBKeyRange.bound(["page"], ["page", []])),
});
const ids = async (db: Db) => (await entriesHere(db)).map((one) => one.entry.id);

test("what comes hundreds at a time lies in a page, each once, however often and in whatever order it is heard", async () => {
  const db = await phone();
  const all = made(450);
  await settle(db, { ...NEWS, heard: all.slice(0, 200) }, AT);
  await settle(db, { ...NEWS, heard: [...all.slice(100, 300).reverse(), ...all.slice(150, 160)] }, AT);
  await settle(db, { ...NEWS, heard: all.slice(250) }, AT);
  expect(await ids(db)).toEqual(all.map((one) => one.id));
  expect(await counts(db)).toEqual({ single: 0, pages: 3 });
  await settle(db, { ...NEWS, heard: [all[120] as Entry, all[299] as Entry] }, AT);
  expect(await counts(db)).toEqual({ single: 0, pages: 3 });
  expect(await entryById(db, "n00120")).toEqual(all[120]);
  expect(await entryById(db, "n00999")).toBeUndefined();
});

test("a few lie by themselves, and what stands for an entry does until the entry comes", async () => {
  const db = await phone();
  const all = made(150);
  const standIns = all.slice(0, 120).map((one) => ({ ...one, kind: "withheld", data: {} }) as unknown as Entry);
  await settle(db, { ...NEWS, heard: [...standIns, ...all.slice(120)] }, AT);
  expect(await counts(db)).toEqual({ single: 150, pages: 0 });
  await settle(db, { ...NEWS, heard: all.slice(0, 120) }, AT);
  expect((await entriesHere(db)).map((one) => one.entry)).toEqual(all);
});

test("another tab reads what this one put in a page or took out of the single ones, and the other way round", async () => {
  const [one, other] = [await phone("pages-tabs"), await phone("pages-tabs")];
  await addEntries(one, [draft("a")], AT);
  expect(await ids(other)).toEqual(["a"]);
  const all = made(150);
  await settle(one, { ...NEWS, heard: all.slice(0, 149) }, AT);
  expect((await ids(other)).length).toBe(150);
  await settle(one, { ...NEWS, heard: [all[149] as Entry] }, AT);
  await packOne(one);
  expect([(await ids(other)).length, (await ids(one)).length]).toEqual([151, 151]);
  expect(await counts(one)).toEqual({ single: 1, pages: 2 });
});

test("entries moved into a page while another tab was away are found there", async () => {
  const [one, other] = [await phone("pages-away"), await phone("pages-away")];
  await settle(one, { ...NEWS, heard: made(1) }, AT);
  const before = await entriesHere(other);
  await settle(one, { ...NEWS, heard: made(30, 1) }, AT);
  await packOne(one);
  const read = await entriesHere(other);
  expect(read.map((held) => held.entry.id)).toEqual(made(31).map((held) => held.id));
  expect(read[0]).toBe(before[0]);
});

test("packing moves what was heard, and nothing of this phone's own; up to where the log is here stays as it was", async () => {
  const db = await phone();
  await addEntries(db, [draft("a"), draft("b"), draft("c")], AT);
  const problem = { type: "about:blank", title: "no", status: 422 } as never;
  const settled = { accepted: ["a"], rejected: [{ id: "b", problem }], heard: made(20), device: "d-1" };
  await settle(db, { ...NEWS, ...settled, cursor: 21 }, AT);
  const before = await entriesHere(db);
  const upto = await readUpto(db.transaction("meta"));
  expect(upto).toEqual({ log_id: "l", cursor: 21, cursors: { "d-1": 21 } });
  expect([await packOne(db), await packOne(db)]).toEqual([20, 0]);
  expect(await readUpto(db.transaction("meta"))).toEqual(upto);
  expect(await counts(db)).toEqual({ single: 3, pages: 1 });
  await addEntries(db, [draft("d")], AT);
  const after = await entriesHere(db);
  expect(after.filter((one) => one.entry.id !== "d")).toEqual(before);
  expect((await waitingEntries(db)).map((one) => one.id)).toEqual(["c", "d"]);
});

test("an app of 0.1, which knows no pages, finds the phone at the beginning of the log; what it hears again is there once", async () => {
  const db = await phone();
  const all = made(130);
  await settle(db, { ...NEWS, cursor: 130, heard: all }, AT);
  expect([await db.get("meta", "log_id"), await db.get("meta", "cursor")]).toEqual(["l", 0]);
  const tx = db.transaction(["entries", "meta"], "readwrite");
  for (const one of made(131)) {
    const record = {
      id: one.id,
      entry: one,
      mine: false,
      sending: "sent" as const,
      problem: null,
      held_at: AT,
      arrival: 9,
    };
    await tx.objectStore("entries").put(record);
  }
  await tx.objectStore("meta").put(131, "cursor");
  await tx.objectStore("meta").put("another", "entries_mark");
  await tx.done;
  expect(await ids(db)).toEqual(made(131).map((one) => one.id));
  expect((await readUpto(db.transaction("meta"))).cursor).toBe(130);
  await settle(db, { ...NEWS, log_id: "m", cursor: 0, new_log: true }, AT);
  expect((await waitingEntries(db)).map((one) => one.id).sort()).toEqual(made(131).map((one) => one.id));
  expect(await counts(db)).toEqual({ single: 131, pages: 0 });
  expect([await db.get("meta", "cursor"), await db.get("meta", "paged")]).toEqual([0, undefined]);
});

test("some of a page, heard again by an older app, begins and ends as the page does: packed, it takes nothing away", async () => {
  const db = await phone();
  const all = made(130);
  await settle(db, { ...NEWS, cursor: 130, heard: all }, AT);
  const tx = db.transaction("entries", "readwrite");
  for (const one of [all[0], all[60], all[129]] as Entry[]) {
    const where = { mine: false, sending: "sent" as const, problem: null, held_at: AT, arrival: 9 };
    await tx.store.put({ id: one.id, entry: one, ...where });
  }
  await tx.done;
  expect(await packOne(db)).toBe(3);
  expect(await counts(db)).toEqual({ single: 0, pages: 1 });
  expect((await entriesHere(db)).map((one) => one.entry)).toEqual(all);
});

test("for another log all of a page goes out again, by itself, and each is sent once", async () => {
  const db = await phone();
  const all = made(130);
  await settle(db, { ...NEWS, heard: all }, AT);
  await addEntries(db, [draft("a")], AT);
  await settle(db, { ...NEWS, log_id: "m", new_log: true, heard: all.slice(0, 110) }, AT);
  expect(await counts(db)).toEqual({ single: 131, pages: 0 });
  const states = (await entriesHere(db)).map((one) => [one.entry.id, one.sending]);
  expect(states.filter(([, sending]) => sending === "sent").length).toBe(110);
  expect((await waitingEntries(db)).map((one) => one.id).sort()).toEqual(["a", ...all.slice(110).map((one) => one.id)]);
});

test("what is handed over or put back and lies in a page already is not taken twice", async () => {
  const db = await phone();
  const all = made(120);
  await settle(db, { ...NEWS, heard: all }, AT);
  const handed = [...all.slice(0, 5), ...made(1, 500)].map((one) => ({ entry: one, problem: null }));
  const other = { ...(all[5] as Entry), data: { driver: "p-else" } } as Entry;
  const kept = await keepHanded(db, [...handed, { entry: other, problem: null }], [], AT);
  expect([kept.fresh, kept.held, kept.conflicts]).toEqual([1, 5, 1]);
  await putBack(db, { identities: [], entries: await entriesHere(db), setup: null });
  expect((await entriesHere(db)).map((one) => one.entry)).toEqual([...all, ...made(1, 500)]);
  expect(await counts(db)).toEqual({ single: 1, pages: 1 });
});
