/** Of which stage "nothing seen" may be said; common practice, no source. Services A after SS2, B after SS4 (making.ts). */

import { expect, test } from "vitest";
import { nothingNow } from "../src/report/nothing_seen";
import { AT_MS, CAR, entry, setup } from "./making";

const MINUTE = 60_000;
const on = (clock: string, day = 16) => `2026-05-${day}T${clock}:00+02:00`;
const report = (stage: string, at: string, extra = {}) =>
  entry("report.filed", { stage, where: "stage" }, { at, ...extra });
const nothing = (stage: string, at: string, extra = {}) =>
  entry("stage.nothing_seen", { stage, how: "from-seat" }, { at, ...extra });
const out = (service: string, at: string) => entry("service.left", { service, official_time: null }, { at });
const into = (service: string, at: string) => entry("service.entered", { service, official_time: null }, { at });

function now(entries: ReturnType<typeof entry>[], at: string, event = setup()) {
  const { ask, said } = nothingNow(entries, CAR, event, Date.parse(at));
  return said ? `${said.data.stage} said` : ask;
}

test("a second tap finds what the first one said, not the next stage", () => {
  const said = nothing("SS3", on("11:00"));
  expect(now([], on("08:30"))).toBe("SS1");
  expect(now([said], on("11:00"))).toBe("SS3 said");
  expect(now([said], on("11:19"))).toBe("SS3 said");
  expect(now([said], on("11:20"))).toBe("SS4");
});

test("undone, it is asked again; another car's word counts for nothing", () => {
  const said = nothing("SS3", on("11:00"), { id: "n" });
  const undo = entry("entry.voided", { voids: ["n"] }, { at: on("11:01") });
  expect(now([nothing("SS2", on("09:00")), said, undo], on("11:02"))).toBe("SS3");
  expect(now([nothing("SS3", on("08:30"), { car: "42" })], on("08:30"))).toBe("SS1");
});

test("not after a hit on that stage, whatever else is on it; withdrawn hits count for nothing", () => {
  const hits = [1, 2, 3].map((n) => report("SS3", on(`11:0${n}`), { id: `r${n}` }));
  expect(now(hits, on("11:04"))).toBeNull();
  expect(now([nothing("SS3", on("11:00")), ...hits], on("11:04"))).toBeNull();
  expect(now(hits, on("11:24"))).toBe("SS4");
  const gone = entry("report.withdrawn", { replaces: ["r1"] }, { subject: "r1", at: on("11:02") });
  expect(
    now(
      [nothing("SS2", on("09:00")), hits[0], gone].filter((one) => one !== undefined),
      on("11:04"),
    ),
  ).toBe("SS3");
});

test("not in a service, nor so soon after it that no stage can have been driven", () => {
  const seen = nothing("SS2", on("09:00"));
  // By the itinerary in at 9:30, out at 10:00; nobody tapped.
  expect(now([seen], on("10:10"))).toBe("SS2 said");
  expect(now([seen], on("10:20"))).toBe("SS3");
  const entered = into("A", on("09:40"));
  expect(now([seen, entered], on("10:05"))).toBe("SS2 said");
  expect(now([seen, entered, out("A", on("10:10"))], on("10:29"))).toBe("SS2 said");
  expect(now([seen, entered, out("A", on("10:10"))], on("10:30"))).toBe("SS3");
  expect(now([out("A", on("10:10"))], on("10:30")), "the stages before it are done").toBe("SS3");
});

test("what stands in a control drives nothing", () => {
  const seen = nothing("SS3", on("11:00"));
  const control = (at: string) => entry("control.entered", { control: "regroup", official_time: null }, { at });
  expect(now([seen, control(on("11:10"))], on("12:00"))).toBe("SS3 said");
  expect(now([seen, control(on("11:40"))], on("12:00"))).toBe("SS4");
  expect(now([seen, control(on("11:10"))], on("13:02")), "nobody tapped out, and B is due").toBe("SS4");
});

test("not before the day of the first stage, nor on the night before the second day", () => {
  expect(now([], on("23:00", 15))).toBeNull();
  const [a, b] = setup().services;
  if (!a || !b) throw new Error("making.ts has two services");
  const tomorrow = { ...a, service: "C", after: "SS6", arrive: on("10:00", 17) };
  const twoDays = setup({ services: [a, { ...b, parc_ferme_after: true }, tomorrow] });
  const seen = nothing("SS4", on("12:50"));
  expect(now([seen], on("16:00"), twoDays)).toBe("SS4 said");
  expect(now([seen, into("B", on("13:00")), out("B", on("13:30"))], on("16:00"), twoDays)).toBe("SS4 said");
  expect(now([seen, into("B", on("13:00")), out("B", on("13:30"))], on("08:00", 17), twoDays)).toBe("SS5");
  expect(now([seen], on("08:00", 17), twoDays)).toBe("SS5");
  expect(now([seen], on("16:00"))).toBe("SS5");
});

test("after the last stage nothing is left to ask", () => {
  expect(now([report("SS6", on("15:00"))], on("18:00"))).toBeNull();
  expect(now([nothing("SS6", on("15:00"))], on("18:00"))).toBe("SS6 said");
  expect(nothingNow([], CAR, setup({ stages: [] }), AT_MS + MINUTE)).toEqual({ ask: null, said: null });
});
