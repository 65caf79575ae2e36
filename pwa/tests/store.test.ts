/** The phone's store: nothing twice, nothing lost, whatever tab wrote it. */

import { expect, test } from "vitest";
import { write } from "../src/store/db";
import { addEntries, countEntries, entriesHere, settle, waitingEntries } from "../src/store/entries";
import { identitiesHere, markRefused, speakingAs } from "../src/store/identities";
import { readMeta } from "../src/store/meta";
import { dropOldDrafts, keepDraftPhoto, photoHere, waitingPhotos } from "../src/store/photos";
import { learn, putBack } from "../src/store/put_back";
import { AT, AT_MS, draft, entry, joined, phone } from "./making";

const PHOTO = "a".repeat(64);
const picture = { photo: PHOTO, bytes: new Uint8Array([1, 2, 3]).buffer, type: "image/jpeg" };

test("each device counts 1, 2, 3 … on its own, across tabs writing at once", async () => {
  const [one, other] = [await phone("two-tabs"), await phone("two-tabs")];
  await Promise.all(
    Array.from({ length: 20 }, (_, i) => addEntries(i % 2 ? one : other, [draft(`x${i}`), draft(`y${i}`, "d-2")], AT)),
  );
  const entries = await waitingEntries(one);
  const seqs = (device: string) => entries.filter((e) => e.device === device).map((e) => e.seq);
  const counted = Array.from({ length: 20 }, (_, i) => i + 1);
  expect(seqs("d-1")).toEqual(counted);
  expect(seqs("d-2")).toEqual(counted);
});

test("a number is not used again after a write that failed, nor after everything was sent", async () => {
  const db = await phone();
  await addEntries(db, [draft("a")], AT);
  await expect(addEntries(db, [draft("b"), draft("a")], AT)).rejects.toThrow();
  const [c] = await addEntries(db, [draft("c")], AT);
  expect((await waitingEntries(db)).map((e) => [e.id, e.seq])).toEqual([
    ["a", 1],
    ["c", 2],
  ]);
  await settle(db, { log_id: "l", cursor: 2, accepted: ["a", "c"], rejected: [], heard: [], new_log: false }, AT);
  const [d] = await addEntries(db, [draft("d")], AT);
  expect([c?.seq, d?.seq]).toEqual([2, 3]);
});

test("a store that was thrown away gets back what the page knows, and its numbers go on", async () => {
  const before = await phone("before");
  await addEntries(before, [draft("a"), draft("b")], AT);
  const known = { identities: await identitiesHere(before), entries: await entriesHere(before), setup: null };
  learn(known, await addEntries(before, [draft("just written")], AT), AT);
  const after = await phone("after");
  await putBack(after, known);
  expect(await entriesHere(after)).toEqual(known.entries);
  expect(await identitiesHere(after)).toEqual(known.identities);
  expect(await waitingEntries(after)).toHaveLength(3);
  const [c] = await addEntries(after, [draft("c")], AT);
  expect(c?.seq).toBe(4);
});

test("a write that holds a report waits for the disk: strict, not relaxed", async () => {
  const db = await phone();
  const asked: unknown[] = [];
  const watched = new Proxy(db, {
    get: (target, name) =>
      name === "transaction"
        ? (...args: Parameters<typeof db.transaction>) => {
            asked.push(args[2]);
            return target.transaction(...args);
          }
        : Reflect.get(target, name),
  });
  await addEntries(watched, [draft("a")], AT);
  await keepDraftPhoto(watched, picture, AT);
  expect(asked).toEqual([{ durability: "strict" }, { durability: "strict" }]);
});

test("a value that can't be kept takes nothing of its transaction with it", async () => {
  const db = await phone();
  const broken = { ...draft("b"), data: { note: () => {} } } as never;
  await expect(addEntries(db, [draft("a"), broken], AT)).rejects.toThrow();
  expect(await waitingEntries(db)).toEqual([]);
  expect(await readMeta(db, "arrivals")).toBe(0);
  expect(await write(db, ["seq"], (tx) => tx.objectStore("seq").getAll())).toEqual([]);
});

test("a photo goes out only once an entry names it, and drafts given up are forgotten", async () => {
  const db = await phone();
  await keepDraftPhoto(db, picture, AT);
  expect(await waitingPhotos(db)).toEqual([]);
  await addEntries(db, [draft("a", "d-1", "p-maru", [PHOTO])], AT);
  expect(await waitingPhotos(db)).toEqual([PHOTO]);
  expect((await photoHere(db, PHOTO))?.device).toBe("d-1");
  await keepDraftPhoto(db, { ...picture, photo: "b".repeat(64) }, AT);
  await dropOldDrafts(db, AT_MS + 2 * 86_400_000);
  expect(await photoHere(db, "b".repeat(64))).toBeNull();
  expect(await photoHere(db, PHOTO)).not.toBeNull();
});

test("an entry heard that this phone holds already is not touched", async () => {
  const db = await phone();
  const [own] = await addEntries(db, [draft("a")], AT);
  const heard = [entry("report.filed", { zone: "else" }, { id: "a" }), entry("report.filed", {}, { id: "b" })];
  await settle(db, { log_id: "l", cursor: 2, accepted: [], rejected: [], heard, new_log: false }, AT);
  const held = await entriesHere(db);
  expect(held.find((one) => one.entry.id === "a")).toMatchObject({ entry: own, mine: true, sending: "waiting" });
  expect(held.find((one) => one.entry.id === "b")).toMatchObject({ mine: false, sending: "sent" });
});

test("the phone's count moves when an entry is written, heard, accepted or refused, and not otherwise", async () => {
  const db = await phone();
  const counts = [await readMeta(db, "arrivals")];
  const step = async (work: Promise<unknown>) => {
    await work;
    counts.push(await readMeta(db, "arrivals"));
  };
  const said = { log_id: "l", cursor: 0, accepted: [], rejected: [], heard: [], new_log: false };
  await step(addEntries(db, [draft("a"), draft("b")], AT));
  await step(settle(db, said, AT));
  await step(settle(db, { ...said, accepted: ["a"] }, AT));
  await step(settle(db, { ...said, heard: [entry("report.filed", {})] }, AT));
  expect(counts).toEqual([0, 1, 1, 2, 3]);
  expect(await countEntries(db, "waiting")).toBe(1);
});

test("a person who joined again speaks with the newer token; one that was refused comes last", async () => {
  const db = await phone();
  await joined(db, "p-maru", "d-1", { joined_at: "2026-05-16T08:00:00Z" });
  await joined(db, "p-maru", "d-0", { joined_at: "2026-05-16T09:00:00Z" });
  await joined(db, "p-jo", "d-3");
  expect(speakingAs(await identitiesHere(db), "p-maru")?.device).toBe("d-0");
  expect(await markRefused(db, "d-0", true)).toBe(true);
  expect(await markRefused(db, "d-0", true)).toBe(false);
  expect(speakingAs(await identitiesHere(db), "p-maru")?.device).toBe("d-1");
  expect(speakingAs(await identitiesHere(db), "p-nobody")).toBeNull();
});
