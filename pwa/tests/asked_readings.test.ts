/** Which readings a repair of the suspension asks for, and until when. */

import { expect, test } from "vitest";
import { askedReadings } from "../src/report/asked_readings";
import { CAR, entry, setup } from "./making";

const at = (minute: number) => `2026-05-16T13:${String(minute).padStart(2, "0")}:00+02:00`;
const finished = (job: string, minute: number, id = job) =>
  entry("job.finished", {}, { id, subject: job, at: at(minute) });
const read = (reading: string, place: string | null, minute: number) =>
  entry(
    "reading.taken",
    { reading, value: 1, ...(place ? { place } : {}) },
    { id: `${reading} ${minute}`, at: at(minute) },
  );
const asked = (...entries: ReturnType<typeof entry>[]) =>
  askedReadings(entries, CAR, setup()).map(({ job, readings }) => [job, readings]);

test("a strut asks for clicks, ride height and the toe of its axle, an arm for height and toe", () => {
  expect(asked(finished("front-left/strut", 1), finished("rear-right/trailing-arm", 2))).toEqual([
    ["front-left/strut", ["damper clicks", "ride height", "front toe"]],
    ["rear-right/trailing-arm", ["ride height", "rear toe"]],
  ]);
});

test("a mirror, a hose and what is at no corner ask for nothing", () => {
  const jobs = ["left-side/mirror", "front-left/brake-hose", "engine-bay/steering-rack"];
  expect(asked(...jobs.map((job) => finished(job, 1)))).toEqual([]);
});

test("what was read since, there, is asked for no more; before, elsewhere and for another repair it counts not", () => {
  const damper = finished("rear-left/damper", 10);
  expect(asked(damper, read("damper clicks", "rear-left", 12))).toEqual([["rear-left/damper", ["ride height"]]]);
  expect(asked(damper, read("damper clicks", "rear-left", 9))).toHaveLength(1);
  expect(asked(damper, read("ride height", "rear-right", 12))).toEqual([
    ["rear-left/damper", ["damper clicks", "ride height"]],
  ]);
  const both = [read("damper clicks", "rear-left", 12), read("ride height", "rear-left", 12)];
  expect(asked(damper, ...both)).toEqual([]);
  expect(asked(damper, ...both, finished("rear-left/damper", 20, "again"))).toHaveLength(1);
});

test("a repair that was undone asks for nothing, nor does another car's", () => {
  const undo = entry("entry.voided", { voids: ["front-left/strut"], reason: "mis-tap" }, { id: "v" });
  expect(asked(finished("front-left/strut", 1), undo)).toEqual([]);
  expect(askedReadings([finished("front-left/strut", 1)], "another", setup())).toEqual([]);
});
