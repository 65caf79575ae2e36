/** Which versions stand; the expected heads are read off the rule by hand. */

import { expect, test } from "vitest";
import type { Entry } from "../src/kit/api";
import { reportsOf } from "../src/report/effective";
import { headsOf, type Version } from "../src/report/versions";
import { headsIn } from "../src/report/heads";
import { entry, held, heldAll, ids } from "./making";

const filed = (id: string, extra = {}) => entry("report.filed", { stage: "SS1", zone: "front-left" }, { id, ...extra });
const amended = (id: string, replaces: string[], extra = {}) =>
  entry("report.amended", { replaces, stage: "SS2" }, { id, subject: "a", ...extra });
const withdrawn = (id: string, replaces: string[]) =>
  entry("report.withdrawn", { replaces, reason: "" }, { id, subject: "a" });
const heads = (...versions: Entry[]) => ids(headsOf(versions as Version[])).sort();

test("one version stands; a chain leaves its end", () => {
  expect(heads(filed("a"))).toEqual(["a"]);
  expect(heads(filed("a"), amended("b", ["a"]), amended("c", ["b"]))).toEqual(["c"]);
});

test("two people who had not seen each other leave two versions, until one replaces both", () => {
  const fork = [filed("a"), amended("b", ["a"]), amended("c", ["a"])];
  expect(heads(...fork)).toEqual(["b", "c"]);
  expect(heads(...fork, amended("d", ["b", "c"]))).toEqual(["d"]);
});

test("a ring of versions that replace each other stays, and what it replaces does not", () => {
  expect(heads(filed("a"), amended("b", ["a", "c"]), amended("c", ["b"]))).toEqual(["b", "c"]);
  expect(heads(filed("a"), amended("b", ["b", "a"]))).toEqual(["b"]);
});

test("what replaces a ring as a whole or in part ends it", () => {
  expect(heads(filed("a"), amended("b", ["a", "c"]), amended("c", ["b"]), amended("d", ["c"]))).toEqual(["d"]);
});

test("ids not here yet wait, ids of other reports count for nothing", () => {
  expect(heads(amended("c", ["b"]), filed("a"))).toEqual(["a", "c"]);
  const others = [filed("a"), entry("report.amended", { replaces: ["a"] }, { id: "x", subject: "other" })];
  expect(ids(headsIn(others)).sort()).toEqual(["a", "x"]);
});

test("order of arrival changes nothing", () => {
  const all = [filed("a"), amended("b", ["a"]), amended("c", ["b"]), amended("d", ["a"])];
  expect(heads(...all.toReversed())).toEqual(heads(...all));
});

test("a withdrawal is a version; beside an amendment the report stands in two", () => {
  const [only] = reportsOf(heldAll(filed("a"), withdrawn("b", ["a"])));
  expect(only?.withdrawn).toBe(true);
  expect(only?.body.zone).toBeNull();
  const [both] = reportsOf(heldAll(filed("a"), withdrawn("b", ["a"]), amended("c", ["a"])));
  expect(both?.withdrawn).toBe(false);
  expect(both?.two_versions).toBe(true);
  expect(both?.body.stage).toBe("SS2");
});

test("reports of another car are others, and the newest comes first", () => {
  const early = filed("a", { at: "2026-05-16T10:00:00+02:00" });
  const late = filed("b", { at: "2026-05-16T09:00:00Z" });
  const reports = reportsOf(heldAll(early, late, filed("z", { car: "42" })), "41");
  expect(reports.map((report) => report.report)).toEqual(["b", "a"]);
});

test("a report shows the worst of its own entries: refused before waiting before sent", () => {
  const problem = { type: "", title: "no", status: 400, detail: "" };
  const sent = held(filed("a"), { mine: true });
  const waits = held(amended("b", ["a"]), { mine: true, sending: "waiting" });
  const refused = held(amended("c", ["b"]), { mine: true, sending: "attention", problem });
  expect(reportsOf([sent])[0]?.sending).toBe("sent");
  expect(reportsOf([sent, waits])[0]?.sending).toBe("waiting");
  expect(reportsOf([sent, waits, refused])[0]).toMatchObject({ sending: "attention", problem });
});
