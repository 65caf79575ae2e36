/** A car that retires and restarts: what was said last counts, and what a form says anew becomes entries. */

import { expect, test } from "vitest";
import { goOn, retireCar } from "../src/flow/retiring";
import type { Entry } from "../src/kit/api";
import { retirementOf } from "../src/report/retirement";
import { draftOf, type RetirementDraft, saidNew } from "../src/report/retirement_form";
import { keepAnswer, SETUP_KEY } from "../src/store/answers";
import { entriesHere } from "../src/store/entries";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, CAR, entry, EVENT, joined, phone, setup } from "./making";

const at = (minute: number) => new Date(AT_MS + minute * 60_000).toISOString();
const READY = "2026-05-17T07:00:00+02:00";
const READY_MS = Date.parse(READY);
const stopped = (minute: number, more: object = {}) =>
  entry("car.retired", { stage: "SS3", restart: "unknown", ...more }, { at: at(minute) });
const comes = (minute: number, ready_by: string | null = READY) =>
  entry("car.restarts", { ready_by }, { at: at(minute) });
const now = (...entries: Entry[]) => retirementOf(entries, CAR, setup())?.now ?? null;

test("the newest word says how it stands, whatever order the entries came in", () => {
  expect(now()).toBeNull();
  expect(now(stopped(0))).toEqual({ state: "retired", restart: "unknown" });
  expect(now(stopped(5, { restart: "no" }), stopped(0))).toEqual({ state: "retired", restart: "no" });
  expect(now(comes(10), stopped(0))).toEqual({ state: "restarts", by_ms: READY_MS });
  expect(now(stopped(20, { restart: "no" }), comes(10))).toEqual({ state: "retired", restart: "no" });
  // Said in one go: the restart comes after the retirement, though both bear one time.
  expect(now(comes(0), stopped(0, { restart: "yes" }))).toEqual({ state: "restarts", by_ms: READY_MS });
});

test("an entry of 0.1 names no restart: it is not known yet; one with no time to be ready by goes on at once", () => {
  expect(now(entry("car.retired", { stage: "SS3" }, { at: at(0) }))).toEqual({ state: "retired", restart: "unknown" });
  expect(now(stopped(0), comes(5, null))).toBeNull();
});

test("another car's retirement says nothing of this one", () => {
  expect(now(entry("car.retired", { stage: "SS3" }, { at: at(0), car: "42" }))).toBeNull();
});

test("a service or a stage afterwards says that it runs, unless that was taken back", () => {
  const came = entry("service.entered", { service: "B" }, { at: at(30), person: "p-jo" });
  expect(now(stopped(0), came)).toBeNull();
  const back = entry("entry.voided", { voids: [came.id], reason: "mis-tap" }, { at: at(31), person: "p-jo" });
  expect(now(stopped(0), came, back)).toEqual({ state: "retired", restart: "unknown" });
  // Of a restart that counts from the time to be ready by: overnight somebody may come into the service bay.
  expect(now(stopped(0), comes(5), came)).toEqual({ state: "restarts", by_ms: READY_MS });
  const next = entry("stage.nothing_seen", { stage: "SS5", how: "from-seat" }, { at: "2026-05-17T08:30:00+02:00" });
  expect(now(stopped(0), comes(5), next)).toBeNull();
});

test("a hit on a stage says that a car that restarts runs once it had to be ready; before, it may be the one that stopped it", () => {
  const hit = (time: string, where: "stage" | "service" = "stage") =>
    entry("report.filed", { where, zone: "front-left", findings: [] }, { at: time });
  expect(now(stopped(0), hit(at(5)))).toEqual({ state: "retired", restart: "unknown" });
  expect(now(stopped(0), comes(5), hit(at(10)))).toEqual({ state: "restarts", by_ms: READY_MS });
  expect(now(stopped(0), comes(5), hit("2026-05-17T08:30:00+02:00", "service"))).not.toBeNull();
  expect(now(stopped(0), comes(5), hit("2026-05-17T08:30:00+02:00"))).toBeNull();
});

const held = (...entries: Entry[]) => retirementOf(entries, CAR, setup());
const filled: RetirementDraft = {
  stage: "SS3",
  km: 4.2,
  drives: "no",
  cause: "e1",
  recovered_by: "Event recovery",
  restart: "unknown",
  by_ms: READY_MS,
};

test("a form begins with what was said last, else with the stage and ten hours to the next quarter", () => {
  const first = draftOf(null, "SS4", AT_MS + 1);
  expect(first).toMatchObject({ stage: "SS4", km: null, restart: "unknown", recovered_by: "" });
  expect(first.by_ms).toBe(AT_MS + 10 * 3_600_000 + 15 * 60_000);
  const said = draftOf(held(stopped(0, { km: 4.2, drives: "no" }), comes(5)), "SS6", AT_MS);
  expect(said).toMatchObject({ stage: "SS3", km: 4.2, drives: "no", restart: "yes", by_ms: READY_MS });
});

test("what a form says anew becomes entries, and nothing else does", () => {
  const { by_ms: _, ...whole } = filled;
  expect(saidNew(filled, null)).toEqual({ retired: whole, restarts: null });
  const before = held(entry("car.retired", whole, { at: at(0) }));
  expect(saidNew(filled, before)).toEqual({ retired: null, restarts: null });
  expect(saidNew({ ...filled, km: 5 }, before).retired).toMatchObject({ km: 5 });
  expect(saidNew({ ...filled, restart: "no" }, before).retired).toMatchObject({ restart: "no" });
  // A restart is an entry of its own; the retirement need not be said again.
  expect(saidNew({ ...filled, restart: "yes" }, before)).toEqual({ retired: null, restarts: { by_ms: READY_MS } });
  const back = held(entry("car.retired", whole, { at: at(0) }), comes(5));
  expect(saidNew({ ...filled, restart: "yes" }, back)).toEqual({ retired: null, restarts: null });
  expect(saidNew({ ...filled, restart: "yes", by_ms: 1 }, back).restarts).toEqual({ by_ms: 1 });
  // What is said again of the retirement would be newer than the restart: that is said again, too.
  expect(saidNew({ ...filled, restart: "yes", km: 5 }, back)).toMatchObject({
    retired: { km: 5, restart: "yes" },
    restarts: { by_ms: READY_MS },
  });
});

async function someone(role: "co-driver" | "manager" = "co-driver") {
  const db = await phone();
  const people = [{ person: "p-maru", name: "Maru", roles: [role], skills: [] }];
  const answer = { log_id: "l", events: [setup({ people })], devices: [] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 1 });
  await joined(db, "p-maru", "d-1");
  let now_ms = AT_MS;
  const core = freshCore(db, "p-maru", () => {
    now_ms += 60_000;
    return now_ms;
  });
  core.page.event = EVENT;
  core.page.car = CAR;
  await core.refresh();
  const kinds = async () => (await entriesHere(db)).map((one) => one.entry.kind).sort();
  return { core, kinds };
}

test("saved without a signal: retired, then restarting, then that it goes on", async () => {
  const { core, kinds } = await someone();
  await retireCar(core, filled);
  expect(await kinds()).toEqual(["car.retired"]);
  await expect(retireCar(core, filled)).rejects.toThrow("saved already");
  await retireCar(core, { ...filled, restart: "yes" });
  expect(await kinds()).toEqual(["car.restarts", "car.retired"]);
  const entries = core.snapshot().held.map((one) => one.entry);
  expect(retirementOf(entries, CAR, setup())?.now).toEqual({ state: "restarts", by_ms: READY_MS });
  // No kind of these can be undone, so no undo is offered: a correction is a newer entry.
  expect(core.snapshot().state.message?.undo).toBeNull();
  await goOn(core);
  expect(
    retirementOf(
      core.snapshot().held.map((one) => one.entry),
      CAR,
      setup(),
    )?.now ?? null,
  ).toBeNull();
});

test("both are said in one tap where the restart is known at once", async () => {
  const { core, kinds } = await someone("manager");
  await retireCar(core, { ...filled, restart: "yes" });
  expect(await kinds()).toEqual(["car.restarts", "car.retired"]);
});
