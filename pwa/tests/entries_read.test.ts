/** Entries as the screens read them: the same list while nobody wrote, and never an old one after anybody did. */

import { expect, test, vi } from "vitest";
import type { Entry } from "../src/kit/api";
import { remembered } from "../src/kit/remembered";
import { makeKey } from "../src/kit/device_key";
import { write } from "../src/store/db";
import { addEntries, entriesHere, settle } from "../src/store/entries";
import { signedEntries } from "../src/store/signatures";
import { AT, draft, entry, joined, phone } from "./making";

const NEWS = { log_id: "l", cursor: 1, accepted: [], rejected: [], heard: [], new_log: false };

test("while nobody writes the very same list is given, a round without news included", async () => {
  const db = await phone();
  await addEntries(db, [draft("a")], AT);
  const first = await entriesHere(db);
  await settle(db, NEWS, AT);
  expect(await entriesHere(db)).toBe(first);
});

test("what another tab wrote is there at the next reading, and what did not change is the same object", async () => {
  const [one, other] = [await phone("read-tabs"), await phone("read-tabs")];
  await addEntries(one, [draft("a")], AT);
  const [a] = await entriesHere(one);
  await addEntries(other, [draft("b")], AT);
  const read = await entriesHere(one);
  expect(read.map((held) => held.entry.id)).toEqual(["a", "b"]);
  expect(read[0]).toBe(a);
});

test("each way in which an entry changes is seen: signed, accepted, heard, waiting again for a new log", async () => {
  const db = await phone();
  await joined(db, "p-maru", "d-1", { key: await makeKey() });
  await addEntries(db, [draft("a")], AT);
  const said = async () => (await entriesHere(db)).map(({ entry, sending }) => [entry.id, sending, Boolean(entry.sig)]);
  expect(await said()).toEqual([["a", "waiting", false]]);
  await signedEntries(db);
  expect(await said()).toEqual([["a", "waiting", true]]);
  await settle(db, { ...NEWS, accepted: ["a"] }, AT);
  expect(await said()).toEqual([["a", "sent", true]]);
  await settle(db, { ...NEWS, heard: [entry("driver.changed", { driver: "p-jo" })] }, AT);
  expect((await said()).length).toBe(2);
  await settle(db, { ...NEWS, log_id: "m", new_log: true }, AT);
  expect((await said()).map(([, sending]) => sending)).toEqual(["waiting", "waiting"]);
});

test("what an app wrote that leaves no word of it is seen, before and after this app's own writes", async () => {
  const db = await phone();
  await addEntries(db, [draft("a")], AT);
  const read = async () => (await entriesHere(db)).map((held) => held.entry.id);
  expect(await read()).toEqual(["a"]);
  const older = async (id: string) => {
    const tx = db.transaction(["entries", "meta"], "readwrite");
    const record = await tx.objectStore("entries").get("a");
    if (record) await tx.objectStore("entries").put({ ...record, id, entry: { ...record.entry, id } });
    await tx.objectStore("meta").put(`mark of ${id}`, "entries_mark");
    await tx.done;
  };
  await older("b");
  await addEntries(db, [draft("c")], AT);
  expect(await read()).toEqual(["a", "b", "c"]);
  await addEntries(db, [draft("d")], AT);
  await older("e");
  expect(await read()).toEqual(["a", "b", "c", "d", "e"]);
});

test("a tab that is many writes behind another reads all of them, its own among them in their order", async () => {
  const [one, other] = [await phone("read-behind"), await phone("read-behind")];
  await addEntries(one, [draft("a")], AT);
  const [a] = await entriesHere(one);
  await addEntries(other, [draft("b")], AT);
  await settle(one, { ...NEWS, accepted: ["b"] }, AT);
  await settle(other, { ...NEWS, rejected: [{ id: "b", problem: { type: "about:blank", title: "no" } as never }] }, AT);
  const said = (list: Awaited<ReturnType<typeof entriesHere>>) => list.map((held) => [held.entry.id, held.sending]);
  const want = [
    ["a", "waiting"],
    ["b", "attention"],
  ];
  expect([said(await entriesHere(one)), said(await entriesHere(other))]).toEqual([want, want]);
  for (let at = 0; at < 600; at++) await addEntries(other, [draft(`c${String(at).padStart(3, "0")}`)], AT);
  const read = await entriesHere(one);
  expect([read.length, read[0]]).toEqual([602, a]);
});

test("a write that failed changes nothing of what is read", async () => {
  const db = await phone();
  await addEntries(db, [draft("a")], AT);
  const before = await entriesHere(db);
  await expect(write(db, ["entries"], () => Promise.reject(new Error("no")))).rejects.toThrow("no");
  expect(await entriesHere(db)).toBe(before);
});

test("an answer is remembered for the very same values only, and only the last one", () => {
  let worked = 0;
  const sum = remembered((list: number[], more: number) => {
    worked++;
    return list.reduce((one, other) => one + other, more);
  });
  const list = [1, 2];
  expect([sum(list, 3), sum(list, 3), worked]).toEqual([6, 6, 1]);
  expect([sum([1, 2], 3), sum(list, 4), sum(list, 3), worked]).toEqual([6, 7, 6, 4]);
});

test("a season is read a portion at a time: other work comes in between, and what it writes is there at the next reading", async () => {
  const db = await phone();
  const heard = Array.from({ length: 2_400 }, (_, at) =>
    entry("driver.changed", { driver: "p-jo" }, { id: `r${String(at).padStart(5, "0")}`, seq: at + 1 }),
  ) as Entry[];
  for (let at = 0; at < heard.length; at += 400) {
    await settle(db, { ...NEWS, cursor: at + 400, heard: heard.slice(at, at + 400) }, AT);
  }
  let [given, clock] = [0, 0];
  vi.stubGlobal("scheduler", { postTask: async (work: () => void) => void [given++, work()] });
  // Each portion takes longer than what is followed by the next at once.
  vi.spyOn(performance, "now").mockImplementation(() => (clock += 50));
  const reading = entriesHere(db);
  await addEntries(db, [draft("s")], AT);
  const read = await reading;
  expect(given).toBeGreaterThan(3);
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
  const ids = (await entriesHere(db)).map((held) => held.entry.id);
  expect(ids).toEqual([...heard.map(({ id }) => id), "s"]);
  expect(read.slice(0, heard.length).map((held) => held.entry.id)).toEqual(ids.slice(0, -1));
});
