/** Asking for a plan, its tasks, and the briefing: what is kept, what is written, and by whom. Over a real store. */

import { beforeEach, expect, test } from "vitest";
import type { Entry } from "../src/kit/api";
import { keptPin } from "../src/kit/pin";
import type { Core } from "../src/flow/core";
import { routeOf } from "../src/flow/route";
import {
  acknowledgeBriefing,
  answerOffer,
  askPlan,
  askQuietly,
  choosePlan,
  finishTask,
  keepCopy,
  startTask,
} from "../src/flow/plan";
import type { Briefing } from "../src/report/briefing";
import { PLAIN_WISH, shownOf } from "../src/report/plan";
import { keepAnswer, SETUP_KEY } from "../src/store/answers";
import type { Db } from "../src/store/db";
import { waitingEntries } from "../src/store/entries";
import type { Fetch } from "../src/sync/wire";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, CAR, EVENT, joined, phone, setup } from "./making";
import "./quick_pins";
import { made_plan } from "./plan_made";

let db: Db;
let core: Core;
const asked: { path: string; body: unknown }[] = [];

const answers =
  (status: number, body: unknown): Fetch =>
  async (path, init) => {
    asked.push({ path, body: JSON.parse(String(init.body)) });
    const type = status < 400 ? "application/json" : "application/problem+json";
    return new Response(JSON.stringify(body), { status, headers: { "Content-Type": type } });
  };

beforeEach(async () => {
  asked.length = 0;
  db = await phone();
  core = freshCore(db, "p-jo", () => AT_MS);
  core.page.hash = "#/plan";
  await keepAnswer(db, {
    key: SETUP_KEY,
    answer: { log_id: "l", events: [setup()] },
    etag: null,
    heard_at: AT,
    arrivals: 0,
  });
  await joined(db, "p-jo", "d-1", { roles: ["mechanic"] });
  await joined(db, "p-maru", "d-2", { roles: ["co-driver"], pin: await keptPin("2468") });
  await core.refresh();
});

const written = () => waitingEntries(db) as Promise<Entry[]>;
const state = () => core.snapshot().state;

const card: Briefing = {
  event: EVENT,
  car: CAR,
  service: "B",
  made_at: AT,
  queue: "q9",
  release: "hold",
  done: [],
  not_done: [],
  watch: [],
  aboard: [],
  tools: [],
};

test("a plan is asked for with what was said and nothing else, and kept with when it was worked out", async () => {
  core.fetch = answers(200, made_plan);
  await askPlan(core, "B", PLAIN_WISH);
  await askPlan(core, "B", { mechanics: 2, minutes: 25, away: { "p-odil": 10 }, at: AT });
  const path = `/api/v1/events/${EVENT}/cars/${CAR}/plan`;
  expect(asked).toEqual([
    { path, body: { service: "B" } },
    { path, body: { service: "B", mechanics: 2, minutes: 25, away: { "p-odil": 10 }, at: AT } },
  ]);
  expect(state().plans).toEqual([
    {
      plan: made_plan,
      wish: { mechanics: 2, minutes: 25, away: { "p-odil": 10 }, at: AT },
      heard_at: new Date(AT_MS).toISOString(),
      arrivals: 0,
    },
  ]);
});

const HOSE = "front-left/brake-hose";
const MOVED = { ...made_plan, finish_s: 1350 };
const HANDED = {
  ...made_plan,
  tasks: made_plan.tasks.map((one) => (one.task === `inspect ${HOSE}` ? { ...one, people: ["p-kasp"] } : one)),
};

test("a newer plan that changes nothing for anybody is kept; one that does is offered, and taken or not", async () => {
  core.fetch = answers(200, made_plan);
  await askPlan(core, "B", PLAIN_WISH);
  core.fetch = answers(200, MOVED);
  expect(await askQuietly(core, "B", { ...PLAIN_WISH, at: AT })).toBe(false);
  const [kept] = state().plans;
  expect([kept?.plan.finish_s, kept?.wish.at, kept?.offer]).toEqual([1350, AT, undefined]);
  core.fetch = answers(200, HANDED);
  await askQuietly(core, "B", PLAIN_WISH);
  expect(state().plans[0]?.plan).toEqual(MOVED);
  expect(state().plans[0]?.offer?.plan).toEqual(HANDED);
  await answerOffer(core, "B", false);
  expect(state().plans[0]).toEqual(kept);
  await askQuietly(core, "B", PLAIN_WISH);
  await answerOffer(core, "B", true);
  expect(state().plans[0]?.plan).toEqual(HANDED);
  expect(state().plans[0]?.offer).toBeUndefined();
});

test("a quick plan is replaced by the better one; a quick one never takes the place of a better one", async () => {
  core.fetch = answers(200, { ...made_plan, by: "greedy", settled: false });
  await askPlan(core, "B", PLAIN_WISH);
  core.fetch = answers(200, HANDED);
  await askQuietly(core, "B", PLAIN_WISH);
  expect(state().plans[0]?.plan).toEqual(HANDED);
  core.fetch = answers(200, { ...made_plan, by: "greedy", settled: false });
  expect(await askQuietly(core, "B", PLAIN_WISH)).toBe(true);
  expect(state().plans[0]?.plan).toEqual(HANDED);
  expect(state().plans[0]?.offer).toBeUndefined();
});

test("the server is told which plan is shown, if it is one that knows what to do with it", async () => {
  core.fetch = answers(200, { ...made_plan, starts_at: made_plan.entered_at });
  await askPlan(core, "B", PLAIN_WISH);
  const [shown] = state().plans;
  const previous = shownOf(shown ?? null);
  await askPlan(core, "B", { ...PLAIN_WISH, previous });
  const tasks = made_plan.tasks.map(({ task, start_s, people, jobs }) => ({ task, start_s, people, jobs }));
  expect(asked.at(-1)?.body).toEqual({ service: "B", previous: { tasks } });
  core.fetch = answers(200, { ...made_plan, starts_at: null });
  await askPlan(core, "B", PLAIN_WISH);
  expect(shownOf(state().plans[0] ?? null)).toBeUndefined();
});

test("who chose everything has it shown, also of plans that come later", async () => {
  const { proven, by, finish_s, spare_s, on_time, tasks, left_out } = HANDED;
  const everything = {
    choice: "everything",
    proven,
    by,
    finish_s,
    spare_s,
    on_time,
    tasks,
    left_out,
    late_min: 1,
    penalty_s: 10,
  };
  const both = { ...made_plan, others: [everything] };
  core.fetch = answers(200, both);
  await askPlan(core, "B", PLAIN_WISH);
  await choosePlan(core, "B", "everything");
  expect(state().plans[0]?.plan).toMatchObject({ choice: "everything", late_min: 1, tasks });
  await askPlan(core, "B", state().plans[0]?.wish ?? PLAIN_WISH);
  expect(state().plans[0]?.plan).toMatchObject({ choice: "everything", tasks });
  expect(asked.at(-1)?.body).toEqual({ service: "B" });
  await choosePlan(core, "B", "on-time");
  expect(state().plans[0]?.plan.tasks).toEqual(made_plan.tasks);
});

test("one plan is kept for each service of each car, and it is there without the server", async () => {
  core.fetch = answers(200, made_plan);
  await askPlan(core, "B", PLAIN_WISH);
  core.fetch = answers(200, { ...made_plan, service: "A" });
  await askPlan(core, "A", PLAIN_WISH);
  core.fetch = () => Promise.reject(new TypeError("no network"));
  await expect(askPlan(core, "B", PLAIN_WISH)).rejects.toThrow("only it can plan");
  expect(
    state()
      .plans.map((one) => one.plan.service)
      .sort(),
  ).toEqual(["A", "B"]);
});

test.each([
  ["a plan of another car", { ...made_plan, car: "42" }],
  ["a plan of another service", { ...made_plan, service: "A" }],
  ["no plan at all", { hello: "there" }],
])("%s is no answer", async (_, body) => {
  core.fetch = answers(200, body);
  await expect(askPlan(core, "B", PLAIN_WISH)).rejects.toThrow("did not answer");
  expect(state().plans).toEqual([]);
});

test("the server's own reason is said", async () => {
  core.fetch = answers(409, { type: "x/not-possible", title: "Not possible", status: 409, detail: "Nobody is there." });
  await expect(askPlan(core, "B", PLAIN_WISH)).rejects.toThrow("Not possible. Nobody is there.");
});

test("a crew on the road where the event forbids advice holds no plan, but what it was given in service", async () => {
  core.fetch = answers(200, made_plan);
  await askPlan(core, "B", PLAIN_WISH);
  await keepCopy(core, card);
  core.page.person = "p-maru";
  await core.refresh();
  expect(state().advice).toBe(false);
  expect(state().plans).toEqual([]);
  expect(state().briefing).toEqual(card);
});

test("tasks that are no job are begun and ended under their name in the plan", async () => {
  await startTask(core, "B", "open wheel-off front-left");
  await finishTask(core, "B", "open wheel-off front-left");
  expect((await written()).map(({ kind, subject, data, person }) => ({ kind, subject, data, person }))).toEqual([
    { kind: "task.started", subject: "open wheel-off front-left", data: { service: "B" }, person: "p-jo" },
    { kind: "task.finished", subject: "open wheel-off front-left", data: { service: "B" }, person: "p-jo" },
  ]);
  expect(state().message?.undo).not.toBeNull();
});

test("the co-driver acknowledges on the chief's phone as himself, with his PIN and his own device", async () => {
  await expect(acknowledgeBriefing(core, card, "p-maru", "1111")).rejects.toThrow("not the PIN");
  expect(await written()).toEqual([]);
  await acknowledgeBriefing(core, card, "p-maru", "2468");
  const [one] = await written();
  expect(one).toMatchObject({
    kind: "briefing.acknowledged",
    subject: "B",
    data: { service: "B", queue: "q9" },
    person: "p-maru",
    device: "d-2",
    seq: 1,
  });
  // An undo would be written by p-jo, and count for nothing.
  expect(state().message).toEqual({ text: "Saved: p-maru was told.", undo: null });
});

test("who has not joined here can't be spoken for", async () => {
  await expect(acknowledgeBriefing(core, card, "p-boss", "")).rejects.toThrow("has not joined on this phone");
  expect(await written()).toEqual([]);
});

test("addresses of the plan", () => {
  expect(routeOf("#/plan", ["mechanic"])).toEqual({ screen: "plan", subject: null });
  expect(routeOf("#/plan/sheet", ["mechanic"])).toEqual({ screen: "plan", subject: "sheet" });
  const task = "replace front-left/brake-hose";
  expect(routeOf(`#/plan/task/${encodeURIComponent(task)}`, [])).toEqual({ screen: "plan", subject: `task/${task}` });
  expect(routeOf("#/briefing", ["driver"])).toEqual({ screen: "briefing", subject: null });
});
