/** Entries as the screens read them: the same list while nobody wrote, and never an old one after anybody did. */

import { expect, test } from "vitest";
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
