/** Times at the ends of what can be written, and leap seconds: nothing throws on them, and handed over they are doubted. */

import { expect, test } from "vitest";
import { judged } from "../src/flow/judging";
import type { Entry, EntryOf } from "../src/kit/api";
import { clockIn, msOf, officialMs } from "../src/kit/time";
import { noWork } from "../src/report/controls";
import { isStopped } from "../src/report/stopped";
import { currentService, officialOf } from "../src/report/service";
import { isOddTime } from "../src/report/timely";
import { canAccept, timeShown } from "../src/view/aside/reading";
import { aside } from "../src/view/words/aside";
import { aside as fr } from "../src/view/words/fr/aside";
import { minutesSince } from "../src/view/job/part";
import { dayOf } from "../src/view/walk/paper";
import { CAR, entry, phone, setup } from "./making";

const LAST = "9999-12-31T23:59:59-23:59";
const FIRST = "0001-01-01T00:00:00+23:59";
const LEAP = "2016-12-31T23:59:60Z";
const ODD = [LAST, FIRST, "1899-12-31T23:59:59Z", "2201-01-01T00:00:00Z", "2200-12-31T23:59:59-00:01"];
const GOOD = [
  "1900-01-01T00:00:00Z",
  "1970-01-01T00:00:00+01:00",
  "2200-12-31T23:59:59Z",
  "1899-12-31T23:59:60-00:01",
  LEAP,
];

const at = (time: string, kind: "service.entered" | "job.started" | "control.entered", data: object) =>
  ({ ...entry(kind, data as never), at: time }) as Entry;

test("a leap second is the second before it, as on the server", () => {
  expect(msOf(LEAP)).toBe(Date.parse("2016-12-31T23:59:59Z"));
  expect(officialMs("23:58", LEAP)).toBe(Date.parse("2016-12-31T23:58:00Z"));
});

test.each([LAST, FIRST, LEAP, ...ODD])("nothing throws on %s, and every clock that is shown is one", (time) => {
  const event = setup();
  const entered = at(time, "service.entered", { service: "A", official_time: "soon" }) as EntryOf<"service.entered">;
  const control = at(time, "control.entered", { control: "regroup", official_time: "23:58" });
  const started = at(time, "job.started", {}) as EntryOf<"job.started">;
  expect(clockIn(event.timezone, officialOf(entered))).toMatch(/^\d\d:\d\d$/);
  const here = noWork([control], CAR, event);
  expect(clockIn(event.timezone, here?.since_ms ?? Number.NaN)).toMatch(/^\d\d:\d\d$/);
  expect(Number.isFinite(currentService([entered], CAR, event)?.due_out_ms)).toBe(true);
  expect(minutesSince([started], Date.now())).toBeGreaterThanOrEqual(1);
  expect(timeShown(event, time)).toMatch(/\d\d:\d\d/);
  expect(dayOf(event, time)).toMatch(/\d/);
  expect(isStopped([entered, control, started], "p-toma", CAR, event, Date.now())).toBe(false);
});

test("what was handed over with a year that nobody can mean is doubted, by the server's own limits", async () => {
  const hit = entry("report.filed", { zone: "roof" });
  for (const time of ODD) {
    expect(isOddTime({ ...hit, at: time })).toBe(true);
    expect(isOddTime({ ...hit, said_at: time } as unknown as Entry)).toBe(true);
    expect(isOddTime(entry("service.entered", { service: "A", official_time: time }))).toBe(true);
    expect(isOddTime(entry("car.restarts", { ready_by: time }))).toBe(true);
  }
  for (const time of [...GOOD, "10:42", "about noon", ""])
    expect(isOddTime(entry("service.entered", { service: "A", official_time: time }))).toBe(false);
  const [doubted, believed] = await judged(await phone(), [{ ...hit, at: LAST }, hit]);
  expect(doubted?.problem?.type).toBe("https://shuntbook.invalid/problems/odd-time");
  expect(believed?.problem?.type).not.toBe("https://shuntbook.invalid/problems/odd-time");
});

test("a manager can accept it, and is told what it is in both languages", () => {
  expect(canAccept({ code: "odd-time" } as never, false)).toBe(true);
  for (const words of [aside, fr]) {
    expect(words.code["odd-time"]).toBeTruthy();
    expect(words.todo["odd-time"]).toBeTruthy();
  }
});
