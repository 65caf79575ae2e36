/** Which plan is worked by, and what a newer one would change for people. */

import { expect, test } from "vitest";
import { changesBetween, choices, chosen } from "../src/report/choices";
import { type OtherPlan, type ShownPlan, standings } from "../src/report/plan";
import { held, entry, setup } from "./making";
import { heldPlan, task } from "./plan_made";

const { plan } = heldPlan();
const none = standings(heldPlan(), [], setup());
const everything: OtherPlan = {
  choice: "everything",
  proven: false,
  by: "solver",
  finish_s: 1500,
  spare_s: 0,
  late_min: 2,
  penalty_s: 20,
  on_time: 0.3,
  tasks: [task({ task: "all of it", kind: "work", start_s: 0, end_s: 1500, people: ["p-bodo"] })],
  left_out: [],
};
const with_others: ShownPlan = { ...plan, others: [everything] };

test("another plan takes the place of the one that is shown, and back: nothing is lost on the way", () => {
  const shown = chosen(with_others, "everything");
  expect(shown.choice).toBe("everything");
  expect([shown.finish_s, shown.late_min, shown.tasks]).toEqual([1500, 2, everything.tasks]);
  expect(shown.people).toEqual(plan.people);
  expect(chosen(shown, "on-time")).toEqual(with_others);
  expect(choices(shown)).toEqual(choices(with_others));
});

test("a choice that is not at hand leaves the plan as it is, also of a server that knows none", () => {
  expect(chosen(with_others, "on-hold")).toBe(with_others);
  expect(chosen(plan, "everything")).toBe(plan);
  expect(choices(plan).map((one) => one.choice)).toEqual(["on-time"]);
});

const said = (after: ShownPlan, standing = none) =>
  changesBetween(plan, after, standing).map(
    (one) => `${one.kind} ${one.kind === "order" ? one.person : one.task.task}`,
  );
const changed = (name: string, more: Partial<(typeof plan.tasks)[number]>): ShownPlan => ({
  ...plan,
  tasks: plan.tasks.map((one) => (one.task === name ? { ...one, ...more } : one)),
});
const HOSE = "front-left/brake-hose";

test("the same people in the same order at other times is no change", () => {
  const later = plan.tasks.map((one) => ({ ...one, start_s: one.start_s + 90, end_s: one.end_s + 90 }));
  expect(said({ ...plan, tasks: later })).toEqual([]);
});

test("somebody else, something that comes in or drops out, another order: each is one change", () => {
  expect(said(changed(`inspect ${HOSE}`, { people: ["p-kasp"] }))).toEqual([`people inspect ${HOSE}`]);
  const more = task({ task: "replace left-side/mirror", kind: "work", start_s: 0, end_s: 60, people: ["p-odil"] });
  expect(said({ ...plan, tasks: [...plan.tasks, more] })).toEqual(["in replace left-side/mirror"]);
  expect(said({ ...plan, tasks: plan.tasks.filter((one) => one.kind !== "routine") })).toEqual([
    "out routine tools-counted",
  ]);
  expect(said(changed("routine tools-counted", { start_s: 420, end_s: 425 }))).toEqual(["order p-bodo"]);
});

test("a step that goes with its job is no change of its own, and what is done or under way is none", () => {
  expect(said({ ...plan, tasks: plan.tasks.filter((one) => one.task !== "open wheel-off front-left") })).toEqual([]);
  expect(said(changed("open car-on-stands", { people: ["p-odil"] }))).toEqual([]);
  const finished = entry("inspection.passed", {}, { subject: HOSE });
  const done = standings(heldPlan(), [held(finished, { arrival: 11, sending: "sent" })], setup());
  expect(said(changed(`inspect ${HOSE}`, { people: ["p-kasp"] }), done)).toEqual([]);
});
