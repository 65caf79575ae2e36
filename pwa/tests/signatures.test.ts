/** Entries on a phone get their signature after they are on the disk and before they go out; each one signature. */

import { beforeEach, expect, test } from "vitest";
import { makeKey } from "../src/kit/device_key";
import { isGood } from "../src/kit/verifying";
import type { Db } from "../src/store/db";
import { addEntries, entriesHere, settle, waitingEntries } from "../src/store/entries";
import { signedEntries } from "../src/store/signatures";
import { syncRound } from "../src/sync/round";
import { FakeServer } from "./fake_server";
import { AT, AT_MS, draft, entry, joined, phone } from "./making";

let db: Db;

beforeEach(async () => {
  db = await phone();
});

const withKey = async (device = "d-1", person = "p-maru") => {
  const key = await makeKey();
  return joined(db, person, device, { key });
};

test("an entry is on the disk unsigned first, then signed by its own device, and stays the same entry", async () => {
  const [maru, jo] = [await withKey(), await withKey("d-2", "p-jo")];
  const written = await addEntries(db, [draft("a"), draft("b", "d-2", "p-jo")], AT);
  expect(written.map((one) => one.sig)).toEqual([undefined, undefined]);
  const signed = await signedEntries(db);
  expect(await Promise.all(signed.map((one, at) => isGood(one, [maru, jo][at]?.key?.public as never)))).toEqual([
    true,
    true,
  ]);
  expect(signed.map(({ sig: _, ...rest }) => rest)).toEqual(written);
  expect(await waitingEntries(db)).toEqual(signed);
});

test("two tabs that sign at once end with one signature, which both send", async () => {
  await withKey();
  await addEntries(
    db,
    Array.from({ length: 20 }, (_, i) => draft(`n${i}`)),
    AT,
  );
  const [one, other] = await Promise.all([signedEntries(db), signedEntries(db)]);
  expect(one).toEqual(other);
  expect(await waitingEntries(db)).toEqual(one);
});

test("a phone that died before it signed signs when it sends; what goes out is what stays here", async () => {
  const server = new FakeServer();
  server.tokens.set("token of d-1", "d-1");
  const { key } = await withKey();
  await addEntries(db, [draft("a")], AT);
  await syncRound({ db, fetch: server.fetch, now: () => AT_MS }, "p-maru");
  const [sent] = server.log.map((one) => one.entry);
  expect(sent && (await isGood(sent, key?.public as never))).toBe(true);
  expect((await entriesHere(db)).map((one) => one.entry)).toEqual([sent]);
});

test("without a key nothing is signed and everything goes out all the same; so too with a key that is of no use", async () => {
  await joined(db, "p-maru", "d-1");
  const ecdh = await crypto.subtle.generateKey({ name: "ECDH", namedCurve: "P-256" }, false, ["deriveBits"]);
  const key = await makeKey();
  await joined(db, "p-jo", "d-2", { key: { private: ecdh.privateKey, public: key?.public as never } });
  await addEntries(db, [draft("a"), draft("b", "d-2", "p-jo")], AT);
  expect((await signedEntries(db)).map((one) => [one.id, one.sig])).toEqual([
    ["a", undefined],
    ["b", undefined],
  ]);
});

test("what is heard from others is passed on as it came, signature and unknown fields included", async () => {
  await withKey();
  const heard = { ...entry("report.filed", { zone: "rear" }, { id: "x", device: "d-9" }), sig: "theirs", later: [1] };
  await settle(db, { log_id: "l", cursor: 1, accepted: [], rejected: [], heard: [heard], new_log: false }, AT);
  await settle(db, { log_id: "new", cursor: 0, accepted: [], rejected: [], heard: [], new_log: true }, AT);
  expect(JSON.stringify(await signedEntries(db))).toBe(JSON.stringify([heard]));
});

test("what was refused and is in the log after all counts as sent once it is heard; another entry of its id does not", async () => {
  await addEntries(db, [draft("a"), draft("b")], AT);
  const [a, b] = await waitingEntries(db);
  if (!a || !b) throw new Error("both wait");
  const problem = { type: "https://shuntbook.invalid/problems/unknown-device", title: "", status: 403, detail: "" };
  const said = { log_id: "l", cursor: 0, accepted: [], rejected: [], heard: [], new_log: false };
  await settle(db, { ...said, rejected: [a, b].map(({ id }) => ({ id, problem })) }, AT);
  const turned = Object.fromEntries(Object.entries(a).reverse()) as typeof a;
  await settle(db, { ...said, heard: [turned, { ...b, car: "42" }] }, AT);
  const held = await entriesHere(db);
  expect(held.map((one) => [one.entry.id, one.sending, one.problem?.status])).toEqual([
    ["a", "sent", undefined],
    ["b", "attention", 403],
  ]);
  expect(held[1]?.entry).toEqual(b);
});
