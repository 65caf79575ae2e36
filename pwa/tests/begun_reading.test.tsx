// @vitest-environment happy-dom
/** A report that was begun while the log was still being read: where it was stands there once that is known. */

import { beforeEach, expect, test } from "vitest";
import type { AppState } from "../src/flow/model";
import { emptyState } from "../src/flow/state";
import { forgetDrafts, keptDraft } from "../src/view/log/keptDraft";
import { type NewReport, useNewReport } from "../src/view/log/useNewReport";
import { AT_MS, CAR, entry, heldAll, setup } from "./making";
import { does, show } from "./ui_dom";

const set_up = setup();
const reading: AppState = { ...emptyState(AT_MS), ready: true, reading: true, setup: set_up, car: CAR };
const entries = heldAll(entry("report.filed", { stage: "SS3", where: "stage" }));
const read: AppState = { ...reading, reading: false, entries };

let report: NewReport;

function Log({ state }: { state: AppState }) {
  report = useNewReport({ state, setup: set_up, car: CAR, actions: {} as never });
  return null;
}

beforeEach(forgetDrafts);

test("nothing is guessed from half of the log, and the stage is there once all is read", () => {
  show(<Log state={reading} />);
  expect([report.draft.where, report.draft.stage, report.isFirstDay]).toEqual(["unknown", null, false]);
  does(() => report.begin({ ...report.draft, zone: "front-left" }, { at: "form" }));
  show(<Log state={read} />);
  expect(report.draft).toMatchObject({ zone: "front-left", where: "stage", stage: "SS3" });
  expect(keptDraft(CAR)).toEqual(report.draft);
});

test("who has said where it was meanwhile knows better", () => {
  show(<Log state={reading} />);
  does(() => report.begin({ ...report.draft, where: "road", stage: null } as never, { at: "form" }));
  show(<Log state={read} />);
  expect(report.draft).toMatchObject({ where: "road", stage: null });
});

test("what is read later changes nothing of a report that was begun on the whole log", () => {
  show(<Log state={read} />);
  expect(report.draft.stage).toBe("SS3");
  show(<Log state={{ ...read, entries: [] }} />);
  expect(report.draft.stage).toBe("SS3");
  expect(keptDraft(CAR)).toBeNull();
});
