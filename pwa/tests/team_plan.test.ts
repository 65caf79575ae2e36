/** The plan of several cars as a phone holds it: what is due, one board for all, other plans, what a server is told. */

import { beforeEach, expect, test } from "vitest";
import type { Core } from "../src/flow/core";
import { askTeamPlan, chooseTeamPlan, improveTeamPlan } from "../src/flow/team_plan";
import type { TeamPlan } from "../src/kit/api";
import {
  chosenTeam,
  dueOf,
  type HeldTeam,
  leads,
  partHeld,
  type ShownTeam,
  teamChoices,
  teamOf,
  teamShown,
} from "../src/report/team_plan";
import { boardOf, leftOf, thereFrom } from "../src/view/lanes/board";
import { peopleOfAll, tasksOfAll } from "../src/view/team/people";
import { keepAnswer, SETUP_KEY } from "../src/store/answers";
import type { Db } from "../src/store/db";
import type { Fetch } from "../src/sync/wire";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, entry, joined, phone, setup } from "./making";
import { made_plan, task } from "./plan_made";

const PEOPLE = [
  { person: "p-bodo", mechanic: true, inspector: false, from_s: 0 },
  { person: "p-kasp", mechanic: true, inspector: false, from_s: 600 },
];

const first = { ...made_plan, now_s: 0, people: PEOPLE, offset_s: 0 };
/** Comes in four minutes after the other; Bodo lowers the first, then lifts this one. */
const second = {
  ...first,
  car: "42",
  offset_s: 240,
  work_s: 900,
  late_min: 2,
  tasks: [
    task({
      task: "open car-on-stands",
      kind: "open",
      step: "car-on-stands",
      start_s: 1080,
      end_s: 1200,
      people: ["p-bodo"],
    }),
  ],
  others: [{ ...made_plan, choice: "on-hold" as const, tasks: [], left_out: [], late_min: 0 }],
};
const said: TeamPlan = {
  event: "invented-2026",
  starts_at: "2026-05-16T13:02:00+02:00",
  proven: false,
  by: "solver",
  finish_s: 1440,
  cars: [first, second],
  resources: [],
};
const plan = teamOf(said) as ShownTeam;
const wish = { service: "B", cars: ["41", "42"], mechanics: null, away: {}, at: null };
const held: HeldTeam = { plan, wish, heard_at: "2026-05-16T13:06:00+02:00", arrivals: 10 };
const parts = plan.cars.map((one) => ({ plan: one, offset_s: one.offset_s }));

test("a later car's tasks stand on the clock of all, in the lanes of the people that both share", () => {
  const board = boardOf(parts, ["p-bodo"]);
  const blocks = board.lanes[0]?.blocks ?? [];
  expect([...new Set(blocks.map((one) => one.car))]).toEqual(["41", "42"]);
  const last = blocks.at(-1);
  expect(last?.left).toBeCloseTo(leftOf(board, 240 + 1080) ?? -1, 6);
  expect(board.to_s).toBe(240 + 1200);
});

test("each car has its own moving times and its own end; only what is past its end is late", () => {
  const board = boardOf(parts, ["p-bodo"]);
  const [one, two] = board.cars;
  expect(one?.moving).toHaveLength(2);
  expect(two?.moving.map((moving) => moving.left)).toEqual([leftOf(board, 1320)]);
  expect(one?.end).toBeCloseTo(leftOf(board, 1380) ?? -1, 6);
  expect(two?.end).toBeCloseTo(leftOf(board, 240 + 900) ?? -1, 6);
  expect(one?.late).toBeNull();
  expect(two?.late?.left).toBeCloseTo(leftOf(board, 1140) ?? -1, 6);
});

test("who is away is so on the clock of all, whichever car comes in when", () => {
  expect(thereFrom(parts, "p-kasp")).toBe(600);
  expect(thereFrom(parts, "p-bodo")).toBe(0);
  expect(boardOf(parts, ["p-kasp"]).lanes[0]?.away?.width).toBeGreaterThan(0);
});

test("a person's list has the tasks at all cars by the clock of all", () => {
  const tasks = tasksOfAll(parts, "p-bodo");
  expect(tasks.map((one) => one.start_s)).toEqual([...tasks.map((one) => one.start_s)].sort((a, b) => a - b));
  expect(tasks.at(-1)).toMatchObject({ car: "42", start_s: 1320 });
  expect(peopleOfAll(parts, "p-kasp")).toEqual(["p-kasp", "p-bodo"]);
});

test("another plan is chosen for all cars; a car that has no other keeps its own, and its place on the clock", () => {
  expect(teamChoices(plan)).toEqual(["on-time", "on-hold"]);
  const other = chosenTeam(plan, "on-hold");
  expect(other.cars.map((one) => [one.choice, one.late_min, one.offset_s])).toEqual([
    ["on-time", 0, 0],
    ["on-hold", 0, 240],
  ]);
  const back = chosenTeam(other, "on-time");
  expect(back.cars.map((one) => [one.choice, one.late_min])).toEqual([
    ["on-time", 0],
    ["on-time", 2],
  ]);
});

test("a server is told what was shown, and no more", () => {
  const told = teamShown(held);
  expect(told?.starts_at).toBe(said.starts_at);
  expect(told?.cars[1]).toEqual({
    car: "42",
    offset_s: 240,
    tasks: [{ task: "open car-on-stands", start_s: 1080, people: ["p-bodo"], jobs: [] }],
  });
  expect(teamShown(null)).toBeUndefined();
});

test("one car's part is held as a plan of one car is", () => {
  expect(partHeld(held, "42")).toMatchObject({ plan: { car: "42" }, heard_at: held.heard_at, arrivals: 10 });
  expect(partHeld(held, "7")).toBeNull();
});

test.each([null, {}, { starts_at: "x" }, { starts_at: "x", cars: [{}] }, "page"])("%j is no plan", (body) => {
  expect(teamOf(body)).toBeNull();
});

test("who leads is told the chance: an inspector or a manager, no mechanic", () => {
  expect([leads(["mechanic"]), leads(["mechanic", "inspector"]), leads(["manager"])]).toEqual([false, true, true]);
});

const CARS = setup({
  cars: [
    { car: "41", label: "41" },
    { car: "42", label: "42" },
  ],
});
const came = (car: string, service: string, minute = 0) =>
  entry("service.entered", { service }, { car, at: new Date(AT_MS + minute * 60_000).toISOString() });
const went = (car: string, service: string, minute = 31) =>
  entry("service.left", { service }, { car, at: new Date(AT_MS + minute * 60_000).toISOString() });

test("due is the earliest service that any car is in or comes to, with the cars that do", () => {
  expect(dueOf([], CARS)).toEqual({ service: "A", cars: ["41", "42"] });
  expect(dueOf([came("41", "A")], CARS)).toEqual({ service: "A", cars: ["41", "42"] });
  // The first has gone on: the second has the crew for itself until both come to the next one.
  expect(dueOf([came("41", "A"), went("41", "A")], CARS)).toEqual({ service: "A", cars: ["42"] });
  const both = [came("41", "A"), went("41", "A"), came("42", "A", 5), went("42", "A", 36)];
  expect(dueOf(both, CARS)).toEqual({ service: "B", cars: ["41", "42"] });
});

test("a car that has retired comes to no service, and after the last one nothing is due", () => {
  const stopped = entry("car.retired", { stage: "SS1", restart: "no" }, { car: "42", at: AT });
  expect(dueOf([stopped], CARS)).toEqual({ service: "A", cars: ["41"] });
  const over = ["41", "42"].flatMap((car) => [came(car, "B"), went(car, "B")]);
  expect(dueOf(over, CARS)).toBeNull();
});

let db: Db;
let core: Core;
const asked: unknown[] = [];
const answers =
  (status: number, body: unknown): Fetch =>
  async (_path, init) => {
    asked.push(JSON.parse(String(init.body)));
    const type = status < 400 ? "application/json" : "application/problem+json";
    return new Response(JSON.stringify(body), { status, headers: { "Content-Type": type } });
  };
const state = () => core.snapshot().state.team_plan;

beforeEach(async () => {
  asked.length = 0;
  db = await phone();
  core = freshCore(db, "p-jo", () => AT_MS);
  core.page.hash = "#/team";
  const answer = { log_id: "l", events: [CARS] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 0 });
  await joined(db, "p-jo", "d-1", { roles: ["mechanic"] });
  await core.refresh();
});

test("the cars are asked for with what was said and nothing else, and the plan is kept with its time", async () => {
  core.fetch = answers(200, said);
  await askTeamPlan(core, wish);
  await askTeamPlan(core, { ...wish, mechanics: 2, away: { "p-kasp": 10 }, at: AT, previous: teamShown(held) });
  const visits = [
    { car: "41", service: "B" },
    { car: "42", service: "B" },
  ];
  expect(asked).toEqual([
    { visits },
    { visits, mechanics: 2, away: { "p-kasp": 10 }, at: AT, previous: teamShown(held) },
  ]);
  expect(state()).toMatchObject({
    plan: { by: "solver", cars: [{ car: "41" }, { car: "42" }] },
    heard_at: new Date(AT_MS).toISOString(),
  });
});

test("why the server refuses is said in its words, and the plan that was kept stays", async () => {
  core.fetch = answers(200, said);
  await askTeamPlan(core, wish);
  core.fetch = answers(409, { type: "about:blank", title: "Not possible", detail: "nobody is there", status: 409 });
  await expect(askTeamPlan(core, wish)).rejects.toThrow("Not possible. nobody is there");
  core.fetch = async () => Promise.reject(new TypeError("no network"));
  await expect(askTeamPlan(core, wish)).rejects.toThrow("only it can plan");
  // An answer of other cars than were asked for is none.
  core.fetch = answers(200, { ...said, cars: [first] });
  await expect(askTeamPlan(core, wish)).rejects.toThrow("only it can plan");
  expect(state()?.plan.cars).toHaveLength(2);
});

test("what was made quickly is asked for again until the better one is there, by the plan that was chosen", async () => {
  const quick = { ...said, by: "greedy" as const };
  core.fetch = answers(200, quick);
  await askTeamPlan(core, wish);
  await chooseTeamPlan(core, "on-hold");
  expect(state()?.plan.cars[1]?.choice).toBe("on-hold");
  expect(await improveTeamPlan(core)).toBe(true);
  core.fetch = answers(200, said);
  expect(await improveTeamPlan(core)).toBe(false);
  expect(state()?.plan).toMatchObject({ by: "solver", cars: [{ choice: "on-time" }, { choice: "on-hold" }] });
  const before = asked.length;
  expect(await improveTeamPlan(core)).toBe(false);
  expect(asked).toHaveLength(before);
});

test("it is read for those who work on the cars alone", async () => {
  core.fetch = answers(200, said);
  await askTeamPlan(core, wish);
  await joined(db, "p-maru", "d-2", { roles: ["co-driver"] });
  core.page.person = "p-maru";
  await core.refresh();
  expect(state()).toBeNull();
});
