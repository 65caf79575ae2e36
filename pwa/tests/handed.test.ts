/** What was handed over is kept once, waits to be sent as it is, and counts only if it can be believed. */

import { expect, test } from "vitest";
import { judged } from "../src/flow/judging";
import type { Device, Entry, Setup } from "../src/kit/api";
import { makeKey } from "../src/kit/device_key";
import { signatureOf } from "../src/kit/signing";
import { localParts } from "../src/report/queue_source";
import { keepAnswer, SETUP_KEY } from "../src/store/answers";
import { entriesHere, settle, waitingEntries } from "../src/store/entries";
import { keepHanded, photosHere } from "../src/store/handover";
import { keepDraftPhoto, photoHere, waitingPhotos } from "../src/store/photos";
import { AT, CAR, entry, EVENT, phone, setup } from "./making";

const PHOTO = "b".repeat(64);
const picture = { photo: PHOTO, bytes: Uint8Array.of(1, 2, 3), type: "image/jpeg" };
const bare = (entries: Entry[]) => entries.map((one) => ({ entry: one, problem: null }));
const REFUSED = { type: "https://shuntbook.invalid/problems/unsigned", title: "no", status: 0, detail: "" };

async function knows(signatures: "on" | "off", devices: Device[]) {
  const db = await phone();
  const answer = { log_id: "log", events: [setup({ trust: { signatures } })], devices } as Setup;
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 0 });
  return db;
}

test("entries are kept once, in the order they waited, and are no work of this phone", async () => {
  const db = await phone();
  const [one, other] = [entry("report.filed", { zone: "roof" }), entry("report.filed", { zone: "roof" })];
  const first = await keepHanded(db, bare([one, other]), [], AT);
  expect(first).toEqual({ fresh: 2, held: 0, conflicts: 0, doubtful: 0, photos: 0 });
  const again = await keepHanded(db, bare([other, one]), [], AT);
  expect(again).toEqual({ fresh: 0, held: 2, conflicts: 0, doubtful: 0, photos: 0 });
  expect((await entriesHere(db)).map(({ mine, sending }) => ({ mine, sending }))).toEqual([
    { mine: false, sending: "waiting" },
    { mine: false, sending: "waiting" },
  ]);
  expect(await waitingEntries(db)).toEqual([one, other]);
});

test("another entry of the same number is told, and the one that is here stays", async () => {
  const db = await phone();
  const one = entry("report.filed", { zone: "roof" });
  await keepHanded(db, bare([one]), [], AT);
  const changed = { ...one, car: "42" } as Entry;
  expect(await keepHanded(db, bare([changed]), [], AT)).toMatchObject({ fresh: 0, conflicts: 1 });
  expect((await entriesHere(db)).map((held) => held.entry)).toEqual([one]);
});

test("what the server has already does not wait again, and its word ends a doubt", async () => {
  const db = await phone();
  const [heard, doubted] = [entry("report.filed", { zone: "roof" }), entry("report.filed", { zone: "roof" })];
  const said = { log_id: "log", cursor: 1, accepted: [], rejected: [], heard: [heard], new_log: false };
  await settle(db, said, AT);
  await keepHanded(db, [...bare([heard]), { entry: doubted, problem: REFUSED }], [], AT);
  expect(await waitingEntries(db)).toEqual([doubted]);
  await settle(db, { ...said, cursor: 2, accepted: [doubted.id], heard: [] }, AT);
  const here = (await entriesHere(db)).find((held) => held.entry.id === doubted.id);
  expect(here).toMatchObject({ sending: "sent", problem: null });
});

test("photos come once, in place of a draft or of one that was lost, and go out", async () => {
  const db = await phone();
  await keepDraftPhoto(db, { ...picture, bytes: picture.bytes.slice().buffer }, AT);
  expect(await keepHanded(db, [], [picture], AT)).toMatchObject({ photos: 1 });
  expect(await keepHanded(db, [], [picture], AT)).toMatchObject({ photos: 0 });
  expect(await waitingPhotos(db)).toEqual([PHOTO]);
  expect(new Uint8Array((await photoHere(db, PHOTO))?.bytes ?? new ArrayBuffer(0))).toEqual(picture.bytes);
  const naming = entry("report.filed", { photos: [PHOTO, "c".repeat(64)] });
  expect((await photosHere(db, [naming, naming])).map((one) => one.photo)).toEqual([PHOTO]);
});

test("an entry is believed by the key of the device that its person joined on, and by nothing else", async () => {
  const [key, other] = [await makeKey(), await makeKey()];
  if (!key || !other) throw new Error("this Node has no WebCrypto");
  const device = (name: string, more: Partial<Device> = {}): Device => {
    return { device: name, person: "p-maru", key: key.public, shut_out_at: null, ...more };
  };
  const db = await knows("on", [device("d-1"), device("d-out", { shut_out_at: AT }), device("d-bare", { key: null })]);
  const report = (extra: object) => entry("report.filed", { zone: "roof" }, extra);
  const signed = async (one: Entry, by = key) => ({ ...one, sig: await signatureOf(one, by.private) }) as Entry;
  const good = await signed(report({ device: "d-1" }));
  const cases: [Entry, string | null][] = [
    [good, null],
    [{ ...good, car: "42" } as Entry, "bad-signature"],
    [await signed(report({ device: "d-1" }), other), "bad-signature"],
    [report({ device: "d-1" }), "unsigned"],
    [await signed(report({ device: "d-1", person: "p-jo" })), "wrong-author"],
    [await signed(report({ device: "d-new" })), "unknown-device"],
    [await signed(report({ device: "d-bare" })), "unknown-device"],
    [await signed(report({ device: "d-out" })), "shut-out"],
  ];
  const handed = await judged(
    db,
    cases.map(([one]) => one),
  );
  expect(handed.map(({ problem }) => problem?.type.split("/").at(-1) ?? null)).toEqual(cases.map(([, why]) => why));
  expect(handed.map((one) => one.entry)).toEqual(cases.map(([one]) => one));
});

test("where the event demands no signature only a shut-out device is doubted", async () => {
  const out: Device = { device: "d-out", person: "p-maru", key: null, shut_out_at: AT };
  const db = await knows("off", [out]);
  const [one, other] = await judged(db, [entry("job.started", {}), entry("job.started", {}, { device: "d-out" })]);
  expect([one?.problem, other?.problem?.title]).toEqual([null, expect.stringContaining("blocked")]);
});

test("of an event that is not known here a signature is demanded", async () => {
  const db = await phone();
  const [one] = await judged(db, [entry("job.started", {})]);
  expect(one?.problem?.type).toContain("unsigned");
});

test("what can't be believed is in no queue worked out here, and holds the car", async () => {
  const db = await phone();
  const [good, forged] = [entry("report.filed", { zone: "roof" }), entry("inspection.passed", { covers: [] })];
  await keepHanded(db, [...bare([good]), { entry: forged, problem: REFUSED }], [], AT);
  const entries = await entriesHere(db);
  const parts = localParts({ car: CAR, queue: null, entries, rates: "", unreachable: true });
  expect(parts?.entries).toEqual([good]);
  expect(parts?.set_aside).toEqual([forged.id]);
  expect(good.event).toBe(EVENT);
});

test("of a device that was blocked later, what it wrote up to the last number believed is no doubt", async () => {
  const out: Device = { device: "d-out", person: "p-maru", key: null, shut_out_at: AT, last_seq: 4 };
  const db = await knows("off", [out]);
  const [before, after] = [4, 5].map((seq) => entry("job.started", {}, { device: "d-out", seq }));
  const handed = await judged(db, [before, after] as Entry[]);
  expect(handed.map(({ problem }) => problem?.type.split("/").at(-1) ?? null)).toEqual([null, "shut-out"]);
});

test("where the server kept no number, the highest that it took is the last believed", async () => {
  const db = await knows("off", [{ device: "d-out", person: "p-maru", key: null, shut_out_at: AT }]);
  const [taken, before, after] = [6, 5, 7].map((seq) => entry("job.started", {}, { device: "d-out", seq })) as Entry[];
  const heard = taken ? [taken] : [];
  await settle(db, { log_id: "log", cursor: 1, accepted: [], rejected: [], heard, new_log: false }, AT);
  const handed = await judged(db, [before, after] as Entry[]);
  expect(handed.map(({ problem }) => problem?.type.split("/").at(-1) ?? null)).toEqual([null, "shut-out"]);
});

test("an entry whose signature somebody turned is the same entry, handed over or heard, and no conflict", async () => {
  const db = await phone();
  const one = { ...entry("report.filed", { zone: "roof" }), sig: "mine" } as Entry;
  const turned = { ...one, sig: "turned" } as Entry;
  await keepHanded(db, [{ entry: one, problem: REFUSED }], [], AT);
  expect(await keepHanded(db, bare([turned]), [], AT)).toMatchObject({ fresh: 0, held: 1, conflicts: 0 });
  await settle(db, { log_id: "log", cursor: 1, accepted: [], rejected: [], heard: [turned], new_log: false }, AT);
  expect(await entriesHere(db)).toMatchObject([{ entry: one, sending: "sent", problem: null }]);
});
