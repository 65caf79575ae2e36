/** Words of one place of the car: what is open there, and its inspection. */

import { worded } from "../../kit/language";

export const places = worded("places", {
  notThere: "This car's map has no such place. Go back to the queue.",
  toPlace: (zone: string, n: number) => `All ${n} jobs at ${zone}`,
  sum: (jobs: number, time: string) => (jobs === 1 ? `1 job · ${time}` : `${jobs} jobs · ${time}`),
  minutes: (n: number) => `${n} min`,
  hours: (h: number, min: number) => (min === 0 ? `${h} h` : `${h} h ${min} min`),
  seconds: (n: number) => `${n} s`,
  empty: "Nothing open here in the log",
  emptyNote: "What comes in for this place shows here by itself.",
  reports: "What was reported here",
  moreReports: (n: number) => (n === 1 ? "1 more report" : `${n} more reports`),
  repair: "Repair",
  inspect: "Inspect together",
  cage: "Safety cage: an official must see it",
  ground: "Then, on the ground",
  done: (n: number) => `Done (${n})`,
  checks: (n: number) => (n === 1 ? "1 check" : `${n} checks`),
  not: (names: string) => `not ${names}, who worked on it`,
  afterRepair: (parts: string) => `After the repair: ${parts}`,
  from: (name: string, time: string) => `${name}, from ${time}`,
  plannedFor: (names: string, time: string) => `${names}, planned for ${time}`,
  partsHere: "parts here",
  partsShort: (n: number) => (n === 1 ? "1 part short" : `${n} parts short`),
  failed: (checks: string) => `Not OK: ${checks}`,
  failedPlain: "Inspection not passed: repair it, then inspect again",
  needsUntil: "can pass only until a service",
  addFound: "Add finding",
  start: (part: string) => `Start: ${part}`,
  open: (part: string) => `Open: ${part}`,
  inspectDo: (n: number) => (n === 1 ? "Inspect 1 part" : `Inspect ${n} parts`),
  waits: (names: string) => `Waits for an inspector: ${names}.`,
  waitsNobody: "Waits for an inspector, and this event names none. Tell your manager.",

  title: (zone: string) => `Inspect: ${zone}`,
  answered: (name: string, n: number, of: number) => `${name} · ${n} of ${of} answered`,
  parts: "What this inspection covers",
  at: {
    none: "Checks",
    air: "In the air, wheel on",
    off: "Wheel off",
    ground: "On the ground",
  } as Record<"none" | "air" | "off" | "ground", string>,
  ok: "OK",
  notOk: "Not OK",
  notDone: "Not done",
  why: "Why not",
  must: (check: string) => `${check} (must be OK)`,
  rule: "A pass accepts without a repair only what is unknown, marked or worn, and what is bent until a service. What is worse is repaired first.",
  decide: "Team check only. Scrutineers and the event's regulations decide.",
  file: "File what you found",
  fileWhich: "Which part",
  fileHow: "How bad",
  fileOther: "Another part of this place",
  fileDo: "File it now",
  fileNeeds: "Choose the part and how bad it is first.",
  filed: (what: string) => `Filed: ${what}. It is a job now.`,
  until: "Good until",
  untilAlways: "No limit",
  untilService: (s: string) => `Service ${s}`,
  note: "Note",
  sign: (passed: number, failed: number) =>
    failed === 0
      ? `Sign: ${passed} passed`
      : passed === 0
        ? `Sign: ${failed} not passed`
        : `Sign: ${passed} passed, ${failed} not`,
  signNothing: "Sign",
  lacks: {
    answers: (checks: string[]) =>
      `Answer every check before you sign. Still open: ${checks[0] ?? ""}${checks.length > 1 ? " …" : "."}`,
    why: (checks: string[]) => `Write why it was not done: ${checks.join("; ")}.`,
    ok: () => "Nothing was checked: there is nothing to sign.",
  } as Record<"answers" | "why" | "ok", (checks: string[]) => string>,
  /** Why a pass will not end the hold, of one part. */
  hinders: {
    own: (part: string) => `${part}: you worked on it, so your pass will not count. Another inspector must inspect it.`,
    repair: (part: string) => `${part}: repair it first. A pass will not count before.`,
    until: (part: string) => `${part}: a pass counts only with a service that it is good until.`,
    must: (part: string, checks: string[]) => `${part}: stays on hold until this is OK: ${checks.join("; ")}.`,
    official: (part: string) =>
      `${part}: write which official saw it and what they said. Your own tick does not count for a cage.`,
  } as Record<"own" | "repair" | "until" | "must" | "official", (part: string, checks: string[]) => string>,
  role: (names: string) => `An inspection counts only from an inspector. Fetch one of them: ${names}.`,
  nobody: "An inspection counts only from an inspector, and this event names none. Tell your manager.",
  signed: "Signed and saved on this phone",
  nothing: "Nothing here waits for an inspection.",
  toPlaceBack: (zone: string) => `Back to ${zone}`,
});
