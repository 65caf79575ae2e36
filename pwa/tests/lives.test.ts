/** Parts with a life: what is asked of the server and when, and what putting one in writes. */

import { expect, test } from "vitest";
import { routeOf, showsLives } from "../src/flow/route";
import { isVoidable } from "../src/report/voided";
import { groupLabel, shortLabel } from "../src/view/plan/labels";
import { entry, setup } from "./making";
import { task } from "./plan_made";

test("the list is read and asked for on the screens that show it, and on no other", () => {
  expect(["#/lives", "#/readings", "#/season", "#/queue", "#/job/a/b", "lives"].map(showsLives)).toEqual(
    Array(6).fill(true),
  );
  expect(["", "#/log", "#/service", "#/setup", "#/livestock", "#/queues"].map(showsLives)).toEqual(
    Array(6).fill(false),
  );
  expect(routeOf("#/lives", ["mechanic"]).screen).toBe("lives");
});

test("what was put in by mistake can be undone", () => {
  expect(isVoidable(entry("part.fitted", { serial: "D-7" }, { subject: "front-left/hub" }))).toBe(true);
});

test("what is due is named by what it is wherever a plan names it", () => {
  const event = setup();
  const renews = "routine renew nowhere/hub";
  expect(groupLabel(event, renews)).toMatch(/^Renew /);
  expect(groupLabel(event, "routine spanner-check")).toBe("Spanner check");
  const made = task({ task: renews, kind: "routine", start_s: 0, end_s: 60, people: [], zone: "front-left" });
  expect(shortLabel(event, made)).toBe("renew fl");
});
