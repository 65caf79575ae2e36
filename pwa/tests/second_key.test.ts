/** The key that only a PIN unlocks signs inspections and releases on hold; nobody speaks as another without that PIN. */

import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Core } from "../src/flow/core";
import { inspect, releaseCar } from "../src/flow/jobs";
import { join, pickPerson, speakAs, stayWithPerson } from "../src/flow/joining";
import { judged } from "../src/flow/judging";
import type { Inspection } from "../src/flow/model";
import { setPin } from "../src/flow/pins";
import { fileReport } from "../src/flow/reports";
import type { Device, Entry, PublicKey } from "../src/kit/api";
import { makeSecondKey, relocked, unlocked } from "../src/kit/second_key";
import { makeKey } from "../src/kit/device_key";
import { signatureOf } from "../src/kit/signing";
import { isGood } from "../src/kit/verifying";
import { keepAnswer, queueKey, SETUP_KEY } from "../src/store/answers";
import type { Db } from "../src/store/db";
import { addEntries, waitingEntries } from "../src/store/entries";
import { identitiesHere } from "../src/store/identities";
import { addSigned } from "../src/store/pin_signed";
import { signedEntries } from "../src/store/signatures";
import { json, NO_NETWORK, problem } from "./fake_server";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, CAR, draft, entry, EVENT, job, joined, phone, queue, setup } from "./making";
import "./quick_pins";

const PIN = "471147";
const INSPECTION: Inspection = {
  signed: [{ job: "front-left/wheel", verdict: "passed", checks: [{ check: "Dry", ok: true }] }],
  until: null,
  shown_to: null,
  official_said: null,
  note: null,
};
let db: Db;
let core: Core;

const keep = (key: string, answer: unknown) => keepAnswer(db, { key, answer, etag: null, heard_at: AT, arrivals: 99 });

beforeEach(async () => {
  db = await phone();
  core = freshCore(db, "p-jo", () => AT_MS);
  await keep(SETUP_KEY, { log_id: "l", events: [setup()], devices: [] });
  const jobs = [job("front-left/wheel", { findings: ["f0"], uncovered: ["f0"] })];
  await keep(queueKey(EVENT, CAR), queue({ jobs }).answer);
});

afterEach(() => vi.unstubAllGlobals());

/** Let somebody in who has a key; the server says `second` to the key of the PIN. */
async function lets(second: () => Response | Promise<Response>) {
  const key = await makeKey();
  await joined(db, "p-jo", "d-1", { roles: ["inspector"], name: "Jo", key });
  const sent: PublicKey[] = [];
  core.fetch = async (url, init) => {
    if (!url.endsWith("/second-key")) return problem(404, "not-found", "no");
    sent.push(JSON.parse(init.body as string) as PublicKey);
    return second();
  };
  await core.refresh();
  return { key, sent };
}

const onTrailer = (pin: string) => ({ reason: "on the trailer", answers: [], pin });

const taken = () => new Response(null, { status: 204 });

test("the first PIN makes a key that the server is told of; looks and releases on hold are signed with it", async () => {
  const { key, sent } = await lets(taken);
  await setPin(core, PIN, "");
  await inspect(core, INSPECTION, PIN);
  await releaseCar(core, "B", onTrailer(PIN));
  await releaseCar(core, "B", { reason: "", answers: [], pin: null });
  const [looked, held, released] = await signedEntries(db);
  for (const one of [looked, held]) expect(await isGood(one as Entry, sent[0] as PublicKey)).toBe(true);
  expect(await isGood(released as Entry, key?.public as PublicKey)).toBe(true);
  expect([looked?.seq, held?.seq, released?.seq]).toEqual([1, 2, 3]);
});

test("a release with a reason asks for the PIN, a report does not", async () => {
  await lets(taken);
  await expect(releaseCar(core, "B", onTrailer(PIN))).rejects.toThrow("no PIN on this phone yet");
  await setPin(core, PIN, "");
  await expect(releaseCar(core, "B", onTrailer("000000"))).rejects.toThrow("not the PIN");
  await fileReport(core, { zone: "roof" } as never);
  expect((await waitingEntries(db)).map((one) => one.kind)).toEqual(["report.filed"]);
});

test("where the server takes no first PIN any more, or does not answer, there is none: join again", async () => {
  await lets(() => problem(409, "not-possible", "A PIN is chosen at joining"));
  await expect(setPin(core, PIN, "")).rejects.toThrow("chosen at joining");
  core.fetch = () => NO_NETWORK(null as never, "", {}) as Promise<Response>;
  await expect(setPin(core, PIN, "")).rejects.toThrow("just after joining");
  expect((await identitiesHere(db))[0]?.pin).toBeFalsy();
});

test("a server of 0.1 knows no such key: the PIN counts on this phone, and the phone's key signs", async () => {
  const { key } = await lets(() => problem(404, "not-found", "no"));
  await setPin(core, PIN, "");
  await inspect(core, INSPECTION, PIN);
  const [looked] = await signedEntries(db);
  expect(await isGood(looked as Entry, key?.public as PublicKey)).toBe(true);
});

test("a PIN typed at joining goes with the code; a server of 0.1 is asked again without its key", async () => {
  const bodies: Record<string, unknown>[] = [];
  const answer = { token: "t", device: "d-7", person: "p-jo", name: "Jo", roles: ["inspector"], events: [EVENT] };
  core.fetch = async (_, init) => {
    bodies.push(JSON.parse(init.body as string));
    return bodies.length === 1 ? problem(422, "bad-body", "unknown field") : json(200, answer);
  };
  vi.stubGlobal("sessionStorage", { getItem: () => null, setItem: () => {} });
  vi.stubGlobal("navigator", {});
  expect(await join(core, "ABCD", PIN)).toBe(true);
  expect(bodies.map((one) => "second_key" in one)).toEqual([true, false]);
  const here = async () => (await identitiesHere(db)).at(-1);
  expect(await here()).toMatchObject({ device: "d-7", second: null, pin: { wrong: 0 } });
  bodies.push({});
  core.fetch = async () => json(200, { ...answer, device: "d-8" });
  await join(core, "EFGH", PIN);
  expect((await identitiesHere(db)).find((one) => one.device === "d-8")?.second?.public.kty).toBe("EC");
});

test("the key stands nowhere in plain, opens by its PIN alone, and by another one once that is changed", async () => {
  const made = await makeSecondKey(PIN);
  if (!made) throw new Error("this Node has WebCrypto");
  const key = await unlocked(made, PIN);
  expect(key.extractable).toBe(false);
  await expect(unlocked(made, "471148")).rejects.toThrow();
  const other = await relocked(made, PIN, "222222");
  await expect(unlocked(other, PIN)).rejects.toThrow();
  const one = entry("job.started", {});
  expect(await isGood({ ...one, sig: await signatureOf(one, await unlocked(other, "222222")) }, made.public)).toBe(
    true,
  );
});

test("two tabs that write at once use no number twice", async () => {
  const made = await makeSecondKey(PIN);
  if (!made) throw new Error("this Node has WebCrypto");
  const key = await unlocked(made, PIN);
  const [signed] = await Promise.all([
    addSigned(db, [draft("a"), draft("b")], AT, key),
    addEntries(db, [draft("c")], AT),
    addEntries(db, [draft("d")], AT),
  ]);
  const waiting = await waitingEntries(db);
  expect(waiting.map((one) => one.seq)).toEqual([1, 2, 3, 4]);
  for (const one of signed) expect(await isGood(one, made.public)).toBe(true);
});

test("what was handed over is judged by the key of the PIN, where its device has one", async () => {
  const [own, made] = [await makeKey(), await makeSecondKey(PIN)];
  if (!own || !made) throw new Error("this Node has WebCrypto");
  const device: Device = {
    device: "d-1",
    person: "p-maru",
    key: own.public,
    shut_out_at: null,
    second_key: made.public,
  };
  await keep(SETUP_KEY, { log_id: "l", events: [setup({ trust: { signatures: "on" } })], devices: [device] });
  const looked = entry("inspection.passed", { covers: [] } as never);
  const released = entry("car.released", { service: "B", reason: "so" } as never);
  const second = await unlocked(made, PIN);
  const by = async (one: Entry, key: CryptoKey) => ({ ...one, sig: await signatureOf(one, key) });
  const handed = await judged(db, [
    await by(looked, own.private),
    await by(looked, second),
    await by(released, own.private),
    await by(entry("job.started", {}), own.private),
  ]);
  const doubts = handed.map(({ problem: why }) => why?.type.split("/").at(-1) ?? null);
  expect(doubts).toEqual(["bad-signature", null, "bad-signature", null]);
});

test("where the event demands a PIN, what a phone without one signed is no inspection; a report is", async () => {
  const own = await makeKey();
  if (!own) throw new Error("this Node has WebCrypto");
  const device: Device = { device: "d-1", person: "p-maru", key: own.public, shut_out_at: null };
  const by = async (one: Entry) => ({ ...one, sig: await signatureOf(one, own.private) });
  const handed = [
    await by(entry("inspection.passed", { covers: [] } as never)),
    await by(entry("car.released", { service: "B", reason: "so" } as never)),
    await by(entry("job.started", {})),
  ];
  const doubts = async (pin: boolean) => {
    await keep(SETUP_KEY, { log_id: "l", events: [setup({ trust: { signatures: "on", pin } })], devices: [device] });
    return (await judged(db, handed)).map(({ problem: why }) => why?.type.split("/").at(-1) ?? null);
  };
  expect(await doubts(false)).toEqual([null, null, null]);
  expect(await doubts(true)).toEqual(["no-pin", "no-pin", null]);
});

test("neither the tab's own storage nor a reload speaks as somebody whose PIN was not said", async () => {
  const stored = new Map<string, string>();
  const storage = {
    getItem: (key: string) => stored.get(key) ?? null,
    setItem: (k: string, v: string) => stored.set(k, v),
  };
  vi.stubGlobal("sessionStorage", storage);
  await joined(db, "p-jo", "d-1");
  await joined(db, "p-maru", "d-2");
  await speakAs(core, "p-maru");
  stored.set("shuntbook.person", "p-jo");
  for (const key of stored.keys()) if (stored.get(key) === "p-maru") stored.set(key, "p-jo");
  core.page.person = null;
  await pickPerson(core);
  expect(core.page.person).toBe("p-maru");
  stored.clear();
  core.page.person = null;
  await pickPerson(core);
  expect(core.page.person).toBe("p-maru");
});

test("whom an app of 0.1 kept in the tab's own storage speaks no more if that app comes back", async () => {
  const stored = new Map([["shuntbook.person", "p-jo"]]);
  vi.stubGlobal("sessionStorage", {
    getItem: (key: string) => stored.get(key) ?? null,
    setItem: (key: string, value: string) => stored.set(key, value),
    removeItem: (key: string) => stored.delete(key),
  });
  await joined(db, "p-jo", "d-1");
  await joined(db, "p-maru", "d-2");
  await stayWithPerson(core);
  expect([...stored.values()]).not.toContain("p-jo");
});

test("what one person was told is gone once another one speaks", async () => {
  vi.stubGlobal("sessionStorage", { getItem: () => null, setItem: () => {} });
  await joined(db, "p-jo", "d-1");
  await joined(db, "p-maru", "d-2");
  core.page.message = { text: "Saved: looked.", undo: "e1" };
  await speakAs(core, "p-jo");
  expect(core.page.message?.text).toBe("Saved: looked.");
  await speakAs(core, "p-maru");
  expect(core.page.message).toBeNull();
});
