/** What a phone may say of the release. "Nothing open" is the one that must never be said too early. */

import { expect, test } from "vitest";
import type { Queue } from "../src/kit/api";
import { type ReleaseInput, releaseShown } from "../src/report/release";
import { AT_MS, CAR, entry, held, queue, setup } from "./making";

const BEFORE_B = Date.parse("2026-05-16T12:50:00+02:00");
const HEARD = "2026-05-16T12:45:00+02:00";

function shown(change: Partial<ReleaseInput>) {
  const usual = {
    car: CAR,
    queue: queue({}, { heard_at: HEARD }),
    own: null,
    entries: [],
    setup: setup(),
    now_ms: BEFORE_B,
  };
  return releaseShown({ ...usual, ...change });
}

const cameIn = entry("service.entered", { service: "B", official_time: "13:02" }, { at: "2026-05-16T13:02:40+02:00" });
const hit = entry("report.filed", { zone: "front-left" });

test("nothing open, if the server says so and this phone holds nothing that it may not know", () => {
  expect(shown({})).toEqual({ shown: "nothing-open", heard_at: HEARD });
  expect(shown({ entries: [held(hit, { arrival: 1 })] }).shown).toBe("nothing-open");
});

test("a hold is shown with its reasons, however old, and what it may not know beside it", () => {
  const reasons = [{ job: "front-left/brake-hose", needs: "inspection" as const, entries: ["x"] }];
  const holds = queue({ release: "hold", hold_reasons: reasons }, { heard_at: HEARD });
  const entries = [held(hit, { mine: true, sending: "waiting", arrival: 2 })];
  expect(shown({ queue: holds, entries })).toMatchObject({
    shown: "hold",
    reasons,
    why: ["1 entry of this phone is not sent yet."],
  });
});

test("never heard, or heard of another car: not known", () => {
  expect(shown({ queue: null }).shown).toBe("not-known");
  expect(shown({ queue: queue({ car: "42" }) }).shown).toBe("not-known");
});

test("unsent entries of the car: not known, with their number; those of another car do not count", () => {
  const waits = (id: string, car: string) => held({ ...hit, id, car }, { mine: true, sending: "waiting", arrival: 2 });
  expect(shown({ entries: [waits("a", CAR), waits("b", CAR)] })).toEqual({
    shown: "not-known",
    why: ["2 entries of this phone are not sent yet."],
  });
  expect(shown({ entries: [waits("a", "42")] }).shown).toBe("nothing-open");
});

test("an entry accepted or heard after the queue was asked for: not known, though nothing waits", () => {
  expect(shown({ entries: [held(hit, { mine: true, arrival: 2 })] }).shown).toBe("not-known");
  expect(shown({ entries: [held(hit, { arrival: 2 })] }).shown).toBe("not-known");
});

test("a refused entry of this phone: not known, until the server was heard after it", () => {
  const refused = held(hit, { mine: true, sending: "attention", arrival: 2 });
  expect(shown({ entries: [refused] }).shown).toBe("not-known");
  expect(shown({ entries: [refused], queue: queue({}, { heard_at: HEARD, arrivals: 2 }) }).shown).toBe("nothing-open");
});

test("the car came in and the server was not heard since: not known, with the officials' time", () => {
  const answer = shown({ entries: [held(cameIn, { arrival: 2 })], now_ms: AT_MS + 300_000 });
  expect(answer).toEqual({
    shown: "not-known",
    why: ["No word from the server since the car came in at 13:02."],
  });
});

test("heard again since the car came in: nothing open may be shown", () => {
  const later = queue({}, { heard_at: "2026-05-16T13:04:00+02:00", arrivals: 2 });
  expect(shown({ queue: later, entries: [held(cameIn, { arrival: 2 })], now_ms: AT_MS + 300_000 }).shown).toBe(
    "nothing-open",
  );
});

test("an itinerary that says the car must be in, with no word from anybody: not known", () => {
  const answer = shown({ now_ms: Date.parse("2026-05-16T13:10:00+02:00") });
  expect(answer).toEqual({
    shown: "not-known",
    why: ["The car was due in service B at 13:02, and there was no word from the server since."],
  });
});

test("a clock that jumps back after the car came in hides nothing: the order is this phone's own count", () => {
  const later = queue({}, { heard_at: "2026-05-16T11:00:00+02:00", arrivals: 1 });
  expect(shown({ queue: later, entries: [held(cameIn, { arrival: 2 })] }).shown).toBe("not-known");
});

test("a release word that this app does not know is not taken for nothing open", () => {
  expect(shown({ queue: queue({ release: "free" as never }) }).shown).toBe("not-known");
});

const ofPhone = (change: Partial<Queue> = {}) => queue(change).answer;
const OWN = "Calculated on this phone from what it holds: the server may know of more.";

test("what this phone worked out is never nothing open, whatever the server said last", () => {
  expect(shown({ own: ofPhone() })).toEqual({ shown: "not-known", why: [OWN] });
  expect(shown({ own: ofPhone(), queue: null }).shown).toBe("not-known");
});

test("a hold that this phone worked out is shown with its reasons and when the server was heard, if it was", () => {
  const reasons = [{ job: "cabin/main-hoop", needs: "official" as const, entries: ["x"] }];
  const own = ofPhone({ release: "hold", hold_reasons: reasons });
  const entries = [held(hit, { mine: true, sending: "waiting", arrival: 2 })];
  expect(shown({ own, entries })).toEqual({
    shown: "hold",
    reasons,
    heard_at: HEARD,
    why: [OWN, "1 entry of this phone is not sent yet."],
  });
  expect(shown({ own, queue: null })).toMatchObject({ shown: "hold", heard_at: null });
});
