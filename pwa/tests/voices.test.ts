/** Voice notes on a phone: beside what they are about, gone once taken back; and how loud one is. */

import { expect, test } from "vitest";
import type { LocalEntry } from "../src/report/local_entry";
import { ofJob, voicesBySubject } from "../src/report/voices";
import { loudness } from "../src/view/voice/loudness";
import { entry, heldAll, job } from "./making";

const LAMP = "front-end/lamp";
const report = "r-1";
const sound = { voice: "ab".repeat(32), seconds: 7.5 };
const later = { at: "2026-05-16T13:05:00+02:00" };

const second = entry("voice.linked", sound, { subject: report, ...later });
const first = entry("voice.linked", sound, { subject: report });
const ofOtherCar = entry("voice.linked", sound, { subject: report, car: "42" });
const onJob = entry("voice.linked", sound, { subject: LAMP, ...later });

const idsOf = (held: LocalEntry[], subject: string, person = "") =>
  (voicesBySubject(held, "41", null, person).get(subject) ?? []).map((voice) => voice.entry.id);

test("a report has its car's notes, oldest first", () => {
  expect(idsOf(heldAll(second, first, ofOtherCar, onJob), report)).toEqual([first.id, second.id]);
});

test("a job has its own and those of the reports behind it", () => {
  const voices = voicesBySubject(heldAll(second, first, onJob), "41", null);
  const said = ofJob(voices, job(LAMP, { reports: [report] })).map((voice) => voice.entry.id);
  expect(said).toEqual([onJob.id, first.id, second.id]);
});

test("one that its speaker took back is gone, what another person says of it changes nothing", () => {
  const void_ = (person: string) => entry("entry.voided", { voids: [first.id], reason: "mis-tap" }, { person });
  expect(idsOf(heldAll(first, second, void_("p-maru")), report)).toEqual([second.id]);
  expect(idsOf(heldAll(first, second, void_("p-toma")), report)).toEqual([first.id, second.id]);
});

test("only who said it is offered to take it back", () => {
  const may = (person: string) => voicesBySubject(heldAll(first), "41", null, person).get(report)?.[0]?.may_undo;
  expect([may("p-maru"), may("p-toma"), may("")]).toEqual([true, false, false]);
});

// A sine of full scale has a mean square of 1/2, -3.01 dB (any text on signals); a tenth of it is 20 dB less.
const sine = (height: number) =>
  Uint8Array.from({ length: 2048 }, (_, at) => 128 + Math.round(height * Math.sin((at * Math.PI) / 32)));

test("silence is an empty bar, and a louder voice a longer one in even steps of decibels", () => {
  expect(loudness(new Uint8Array(2048).fill(128))).toBe(0);
  expect(loudness(sine(127))).toBeCloseTo(1 - 3.08 / 60, 2);
  expect(loudness(sine(127)) - loudness(sine(12.7))).toBeCloseTo(20 / 60, 2);
});
