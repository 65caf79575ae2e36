/** What a tap writes, and what the screens then see. Over a real store; the network is not there. */

import { beforeEach, expect, test, vi } from "vitest";
import type { Entry } from "../src/kit/api";
import type { Core } from "../src/flow/core";
import { finishJob, inspect, releaseCar, startJob } from "../src/flow/jobs";
import { amendReport, fileReport, withdrawReport } from "../src/flow/reports";
import { chooseCar } from "../src/flow/phone";
import { askDriver, changeDriver, enterControl, enterService, leaveControl } from "../src/flow/service";
import { voidEntry } from "../src/flow/undo";
import { inEntries } from "../src/flow/entry";
import { setPin } from "../src/flow/pins";
import { joinCodeOf, routeOf } from "../src/flow/route";
import type { Page } from "../src/flow/state";
import { EMPTY_BODY } from "../src/report/body";
import { keepAnswer, queueKey, SETUP_KEY } from "../src/store/answers";
import type { Db } from "../src/store/db";
import { settle, waitingEntries } from "../src/store/entries";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, CAR, draft, entry, EVENT, job, joined, phone, queue, setup } from "./making";
import "./quick_pins";

const WHEEL = "front-left/wheel";
let db: Db;
let core: Core;
let page: Page;

beforeEach(async () => {
  db = await phone();
  core = freshCore(db, "p-jo", () => AT_MS);
  page = core.page;
  const people = [...setup().people, { person: "p-eye", name: "Eye", roles: ["inspector" as const], skills: [] }];
  await keep(SETUP_KEY, { log_id: "l", events: [setup({ people })] });
  await joined(db, "p-jo", "d-1", { roles: ["mechanic"] });
  await joined(db, "p-maru", "d-2", { roles: ["co-driver"] });
  await core.refresh();
});

async function keep(key: string, answer: unknown) {
  await keepAnswer(db, { key, answer, etag: null, heard_at: AT, arrivals: 99 });
}

async function keepQueue() {
  const jobs = [job(WHEEL, { findings: ["f1"], uncovered: ["f1"] }), job("rear/bumper", { findings: ["f2"] })];
  await keep(queueKey(EVENT, CAR), queue({ jobs }).answer);
  await core.refresh();
}

const written = () => waitingEntries(db) as Promise<Entry[]>;
const last = async () => (await written()).at(-1) as Entry;
const state = () => core.snapshot().state;

test("a report is its own subject, and carries who, where, when and the device's number", async () => {
  const id = await fileReport(core, { ...EMPTY_BODY, zone: "front-left", stage: "SS1", where: "stage" });
  const one = await last();
  expect(one).toMatchObject({
    id,
    subject: id,
    v: 1,
    kind: "report.filed",
    event: EVENT,
    car: CAR,
    device: "d-1",
    seq: 1,
    person: "p-jo",
  });
  expect(one.id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  expect(Date.parse(one.at)).toBe(AT_MS);
  expect(state().entries).toHaveLength(1);
  expect(state().waiting).toBe(1);
  expect(state().message, "the screen says itself that it is kept").toBeNull();
});

test("amending and withdrawing replace all heads", async () => {
  const forked = [
    entry("report.filed", { zone: "rear" }, { id: "r" }),
    entry("report.amended", { replaces: ["r"] }, { id: "b", subject: "r" }),
    entry("report.amended", { replaces: ["r"] }, { id: "a", subject: "r" }),
  ];
  await settle(db, { log_id: "l", cursor: 3, accepted: [], rejected: [], heard: forked, new_log: false }, AT);
  await core.refresh();
  await amendReport(core, "r", { ...EMPTY_BODY, zone: "rear" });
  expect((await last()).data).toMatchObject({ replaces: ["a", "b"], zone: "rear" });
  await withdrawReport(core, "r", "mistake");
  expect((await last()).data).toEqual({ replaces: [(await written())[0]?.id], reason: "mistake" });
  await expect(withdrawReport(core, "elsewhere", "")).rejects.toThrow("not on this phone");
});

test("finishing covers what is shown, ends what runs, and names the service that the car is in", async () => {
  await keepQueue();
  await enterService(core, "B", "13:00");
  await startJob(core, WHEEL);
  const start = await last();
  const finish = { action: "replace", minutes: null, mechanics: 1, parts: [], repairers: ["p-jo"], temporary: false };
  await finishJob(core, WHEEL, { ...finish, said_at: null });
  expect(await last()).not.toHaveProperty("said_at");
  expect(await last()).toMatchObject({
    kind: "job.finished",
    subject: WHEEL,
    data: { ...finish, covers: ["f1"], ends: [start.id], service: "B" },
  });
});

test("what was done before the car came into parc fermé is put down as said then; the next service ends it", async () => {
  await keepQueue();
  await enterControl(core, "parc-ferme", "19:30");
  const control = await last();
  expect(control).toMatchObject({ kind: "control.entered", data: { control: "parc-ferme", official_time: "19:30" } });
  const finish = { action: "replace", minutes: null, mechanics: 1, parts: [], repairers: ["p-jo"], temporary: false };
  const said_at = "2026-05-16T19:30:00+02:00";
  await finishJob(core, WHEEL, { ...finish, said_at });
  expect(await last()).toMatchObject({ kind: "job.finished", said_at, data: { ...finish, covers: ["f1"] } });
  await enterService(core, "B", "06:30");
  expect((await written()).slice(-2)).toMatchObject([
    { kind: "service.entered" },
    { kind: "control.left", data: { ends: [control.id], official_time: "06:30" } },
  ]);
  await expect(leaveControl(core, "06:31")).rejects.toThrow("already");
});

test("what the driver says is one go: the answers, and a report of what is not as before", async () => {
  const asked = { answers: [{ question: "pedal", as_before: false }] };
  await askDriver(core, asked, { ...EMPTY_BODY, symptoms: ["long-pedal"] });
  expect((await written()).map((entry) => entry.kind)).toEqual(["driver.asked", "report.filed"]);
  await askDriver(core, { answers: [] }, null);
  expect((await last()).kind).toBe("driver.asked");
});

test("an inspection of several jobs writes one entry each, with its own checks, and is undone as one", async () => {
  await keepQueue();
  const checks = [{ check: "Dry", ok: true }];
  const signed = [WHEEL, "rear/bumper"].map((job) => ({ job, verdict: "passed" as const, checks }));
  const inspection = { signed, until: null, shown_to: null, official_said: null, note: "ok" };
  await setPin(core, "471147", "");
  await inspect(core, inspection, "471147");
  const looks = await written();
  expect(looks.map((one) => [one.subject, one.data])).toEqual([
    [WHEEL, { covers: ["f1"], checks, note: "ok" }],
    ["rear/bumper", { covers: ["f2"], checks, note: "ok" }],
  ]);
  await voidEntry(core, state().message?.undo as string, "mis-tap");
  expect((await last()).data).toEqual({ voids: looks.map((one) => one.id), reason: "mis-tap" });
});

test("of one signature over a place each job gets its own verdict, and what failed can't be undone", async () => {
  await keepQueue();
  const signed = [
    { job: WHEEL, verdict: "failed" as const, checks: [{ check: "Dry", ok: false }] },
    { job: "rear/bumper", verdict: "passed" as const, checks: [{ check: "Tight", ok: true }] },
  ];
  await setPin(core, "471147", "");
  await inspect(core, { signed, until: "B", shown_to: null, official_said: null, note: null }, "471147");
  expect((await written()).map((one) => [one.kind, one.subject, one.data])).toEqual([
    ["inspection.failed", WHEEL, { covers: ["f1"], checks: [{ check: "Dry", ok: false }], until: "B" }],
    ["inspection.passed", "rear/bumper", { covers: ["f2"], checks: [{ check: "Tight", ok: true }], until: "B" }],
  ]);
  expect(state().message).toEqual({ text: "Signed: 1 passed, 1 not passed.", undo: null });
});

test("a release on hold needs the own PIN, and says what was answered", async () => {
  await keep(queueKey(EVENT, CAR), queue({ release: "hold" }).answer);
  await core.refresh();
  const answers = [{ ask: "tools", place: "", entries: ["w1"], ok: true, by: "p-jo" }];
  const release = (pin: string | null) => releaseCar(core, "B", { reason: "The chief decided", answers, pin });
  await expect(release(null)).rejects.toThrow("no PIN on this phone yet");
  await setPin(core, "471147", "");
  await expect(release("000000")).rejects.toThrow("not the PIN");
  expect(await written()).toEqual([]);
  await release("471147");
  expect((await last()).data).toMatchObject({ service: "B", reason: "The chief decided", answers });
});

test("releasing covers what is behind every job, in entries that stay below 16 KiB", async () => {
  await keepQueue();
  await releaseCar(core, "B", { reason: "", answers: [], pin: null });
  expect(await last()).toMatchObject({ kind: "car.released", data: { service: "B", covers: ["f1", "f2"] } });
  const many = Array.from({ length: 1000 }, (_, i) => `019e2f7a-0000-7000-8000-${String(i).padStart(12, "0")}`);
  const lists = inEntries(many);
  expect(lists.flat()).toEqual(many);
  for (const covers of lists) {
    expect(JSON.stringify({ ...draft("x".repeat(36)), data: { service: "B", covers } }).length).toBeLessThan(
      16 * 1024 - 500,
    );
  }
  expect(inEntries([])).toEqual([[]]);
});

test("nobody joined, or no car chosen: nothing is written, and the person is told", async () => {
  page.person = null;
  await core.refresh();
  await expect(startJob(core, WHEEL)).rejects.toThrow("join link");
  expect(state().message?.text).toContain("Nothing was saved");
  expect(await written()).toEqual([]);
});

test("on the road the crew's state holds no queue, no release and no costs, though another person's phone has them", async () => {
  await keepQueue();
  expect(state()).toMatchObject({ advice: true, release: { shown: "nothing-open" } });
  await startJob(core, WHEEL);
  page.person = "p-maru";
  await core.refresh();
  expect(state()).toMatchObject({
    advice: false,
    queue: null,
    release: null,
    costs: null,
    fresh_jobs: [],
    has_looked: false,
    entries: [],
  });
  await enterService(core, "B", "13:00");
  expect(state().advice).toBe(true);
  expect(state().queue).not.toBeNull();
});

test("an unsent entry of the car takes nothing open off the screen at once", async () => {
  await keepQueue();
  expect(state().release?.shown).toBe("nothing-open");
  await fileReport(core, { ...EMPTY_BODY, zone: "rear" });
  expect(state().release?.shown).toBe("not-known");
});

test("two on one phone keep their own numbers and names", async () => {
  await changeDriver(core, "p-jo");
  page.person = "p-maru";
  await core.refresh();
  await changeDriver(core, "p-maru");
  expect((await written()).map((one) => [one.device, one.seq, one.person])).toEqual([
    ["d-1", 1, "p-jo"],
    ["d-2", 1, "p-maru"],
  ]);
});

test("addresses", () => {
  expect(routeOf("#/job/front-left/brake-hose", [])).toEqual({ screen: "job", subject: "front-left/brake-hose" });
  expect(routeOf("#/job/front%20left/x%2Fy", [])).toEqual({ screen: "job", subject: "front left/x/y" });
  expect(routeOf("#/log/0197", [])).toEqual({ screen: "log", subject: "0197" });
  expect(routeOf("#/job/%E0%A4%A", [])).toEqual({ screen: "job", subject: "%E0%A4%A" });
  expect(routeOf("", ["co-driver"]).screen).toBe("log");
  expect(routeOf("#/nowhere", ["manager"]).screen).toBe("queue");
  expect(joinCodeOf("#/join/AB-CD")).toBe("AB-CD");
  expect(joinCodeOf("#/joined")).toBeNull();
});

test("a car that is chosen while the phone is full is chosen, and what is shown of it is asked for once there is room", async () => {
  vi.stubGlobal("sessionStorage", { setItem() {} });
  let written = 0;
  core.written = () => {
    written++;
  };
  core.askAnswers = () => Promise.reject(new DOMException("full", "QuotaExceededError"));
  chooseCar(core, "41");
  await vi.waitFor(() => expect(written).toBe(1));
  expect(core.page.car).toBe("41");
});
