/** Inspections that do not count: fetched, kept for when there is no signal, told to a manager once. */

import { expect, test } from "vitest";
import type { Core, RunningCore } from "../src/flow/core";
import { askPasses, countedBefore, toldOfPasses } from "../src/flow/passes";
import type { Passes, Setup, UncountedPass } from "../src/kit/api";
import { toldKey, toldOf } from "../src/report/told";
import { keepAnswer, passesHere, SETUP_KEY } from "../src/store/answers";
import { json } from "./fake_server";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, CAR, EVENT, joined, phone, setup } from "./making";

const PEOPLE = [
  { person: "p-jo", name: "Jo", roles: ["manager" as const], skills: [] },
  { person: "p-maru", name: "Maru", roles: ["inspector" as const], skills: [] },
];

const pass = (change: Partial<UncountedPass> = {}): UncountedPass => ({
  entry: "e1",
  job: "front-left/brake-hose",
  person: "p-maru",
  at: AT,
  until: null,
  inspection: "needed",
  counted_before: true,
  reasons: [{ why: "no-check-ok", entries: ["e0"], checks: [] }],
  ...change,
});

const answer = (car: string, ...passes: UncountedPass[]): Passes => ({ event: EVENT, car, passes });

/** A manager's phone whose event has two cars; `answers` is what the server says of each. */
async function manager(answers: Record<string, Passes | null>): Promise<{ core: Core; asked: string[] }> {
  const db = await phone();
  const cars = [{ car: CAR }, { car: "42" }] as Setup["events"][number]["cars"];
  const heard: Setup = { log_id: "l", events: [setup({ people: PEOPLE, cars })], devices: [], first_rules: true };
  await keepAnswer(db, { key: SETUP_KEY, answer: heard, etag: null, heard_at: AT, arrivals: 1 });
  await joined(db, "p-jo", "d-1");
  const core = freshCore(db, "p-jo", () => AT_MS);
  const asked: string[] = [];
  core.fetch = async (url) => {
    const car = /cars\/([^/]+)\/passes$/.exec(url)?.[1] ?? "";
    asked.push(car);
    const said = answers[car];
    if (!said) throw new TypeError("no network");
    return json(200, said);
  };
  await core.refresh();
  return { core, asked };
}

test("a manager is told of those that counted in 0.1 and wait for an inspection, by car", async () => {
  const none = pass({ entry: "e2", counted_before: false });
  const again = pass({ entry: "e3", inspection: "passed" });
  const { core, asked } = await manager({ [CAR]: answer(CAR, pass(), none, again), "42": answer("42", again) });
  expect(core.snapshot().state.told).toMatchObject({ first_rules: true });
  expect(await countedBefore(core)).toEqual([{ car: CAR, passes: 1 }]);
  expect(asked).toEqual([CAR, "42"]);
});

test("without a word from the server of each car nobody is told that there are none", async () => {
  const { core } = await manager({ [CAR]: answer(CAR), "42": null });
  expect(await countedBefore(core)).toBeNull();
});

test("told once, it is not told again, to this person at this event", async () => {
  const { core } = await manager({});
  await toldOfPasses({ ...core, running: { tabs: { tell() {} } } } as unknown as RunningCore);
  await core.refresh();
  expect(core.snapshot().state.told).toBeNull();
  const heard = { log_id: "l", events: [setup({ people: PEOPLE })], devices: [], first_rules: true } as Setup;
  const tells = (person: string, told: string[]) => toldOf(heard, EVENT, person, told)?.first_rules ?? false;
  expect(tells("p-jo", [])).toBe(true);
  expect(tells("p-jo", [toldKey("another", "p-jo")])).toBe(true);
  expect(tells("p-jo", [toldKey(EVENT, "p-jo")])).toBe(false);
  expect(tells("p-maru", [])).toBe(false);
});

test("what the server said of a car is kept, and read on the page without a signal", async () => {
  const { core } = await manager({ [CAR]: answer(CAR, pass()) });
  const deps = { db: await core.db, fetch: core.fetch, now: core.now };
  expect(await askPasses(deps, "token", { event: EVENT, car: CAR }, true)).toBe("new");
  core.fetch = () => Promise.reject(new TypeError("no network"));
  expect(await askPasses({ ...deps, fetch: core.fetch }, "token", { event: EVENT, car: CAR }, true)).toBe(
    "unreachable",
  );
  expect((await passesHere(deps.db, EVENT, CAR))?.answer.passes).toEqual([pass()]);
  core.page.car = CAR;
  core.page.hash = "#/passes";
  await core.refresh();
  expect(core.snapshot().state.passes?.answer.passes).toHaveLength(1);
  core.page.hash = "#/queue";
  await core.refresh();
  expect(core.snapshot().state.passes).toBeNull();
});

test("an answer about another car is no answer", async () => {
  const { core } = await manager({ [CAR]: answer("42", pass()) });
  const deps = { db: await core.db, fetch: core.fetch, now: core.now };
  await askPasses(deps, "token", { event: EVENT, car: CAR }, true);
  expect(await passesHere(deps.db, EVENT, CAR)).toBeNull();
});
