/** Days and clocks of a zone: right whatever a browser's locales write, with formatters that are made once. */

import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { CAR, setup } from "./making";

const RealFormat = Intl.DateTimeFormat;
let made = 0;

/** What WebKit made of en-CA with ICU 72 (11/28/2026), for every locale. */
class OtherFormat extends RealFormat {
  constructor(...asked: ConstructorParameters<typeof RealFormat>) {
    super(...asked);
    made += 1;
    Object.defineProperty(this, "format", { value: (at: number) => new RealFormat("en-US").format(at) });
  }
}

beforeEach(() => {
  vi.resetModules();
  made = 0;
  vi.stubGlobal("Intl", Object.assign(Object.create(Intl), { DateTimeFormat: OtherFormat }));
});
afterEach(() => vi.unstubAllGlobals());

const time = () => import("../src/kit/time");
const NOON_MS = Date.parse("2026-11-28T11:00:00Z");

test("an extinguisher that ran out in June has run out, whatever the browser writes for a day", async () => {
  const { datedOf } = await import("../src/report/dated");
  const items = [
    { car: CAR, item: "extinguisher", place: "", seal: "", expires: "2026-06-30" },
    { car: CAR, item: "belts", place: "", seal: "", expires: "2026-12-10" },
  ];
  const found = datedOf(setup({ dated: items, services: [] }), CAR, NOON_MS);
  expect(found.map(({ item, state }) => [item, state])).toEqual([
    ["extinguisher", "expired"],
    ["belts", "soon"],
  ]);
});

test("days, clocks and offsets follow the zone, at midnight, in summer time, and in quarters of an hour", async () => {
  const { clockIn, dayIn, offsetIn } = await time();
  const at = (zone: string, text: string) => {
    const ms = Date.parse(text);
    return [dayIn(zone, ms), clockIn(zone, ms), offsetIn(zone, ms)];
  };
  expect(at("Europe/Vienna", "2026-06-13T22:00:59Z")).toEqual(["2026-06-14", "00:00", 120]);
  // The clocks go back at 01:00 UTC on the last Sunday of October (EU Directive 2000/84/EC).
  expect(at("Europe/Vienna", "2026-10-25T00:59:31Z")).toEqual(["2026-10-25", "02:59", 120]);
  expect(at("Europe/Vienna", "2026-10-25T01:00:00Z")).toEqual(["2026-10-25", "02:00", 60]);
  expect(at("Asia/Kathmandu", "2026-12-31T18:15:00Z")).toEqual(["2027-01-01", "00:00", 345]);
  expect(at("America/St_Johns", "2026-01-01T03:00:00Z")).toEqual(["2025-12-31", "23:30", -210]);
  expect(() => dayIn("Nowhere/Land", 0)).toThrow(RangeError);
});

test("a time typed for the event gets the zone's offset, whatever the browser writes", async () => {
  const { withOffset } = await import("../src/setup/times");
  expect(withOffset("2026-06-13 10:20", "Europe/Vienna")).toBe("2026-06-13T10:20:00+02:00");
  expect(withOffset("2026-01-10 23:59:45", "America/St_Johns")).toBe("2026-01-10T23:59:45-03:30");
  expect(withOffset("2026-06-13 10:20", "Nowhere/Land")).toBeNull();
});

test("a formatter is made once for each zone, locale and kind, however often it is used", async () => {
  const { clockIn, dayIn, longDay, offsetIn, ownZone, weekday } = await time();
  const all = (zone: string) => {
    clockIn(zone, NOON_MS);
    dayIn(zone, NOON_MS);
    offsetIn(zone, NOON_MS);
    for (const locale of ["en-GB", "fr-FR"]) {
      longDay(locale, zone, NOON_MS);
      weekday(locale, zone, NOON_MS);
    }
    ownZone();
  };
  for (let time = 0; time < 100; time++) for (const zone of ["Europe/Vienna", "Asia/Tokyo"]) all(zone);
  // Two zones with clock, day and two kinds in two languages each, and the phone's own.
  expect(made).toBe(2 * (2 + 2 * 2) + 1);
});

/** Return what the check says of a source file. */
function checked(text: string): string {
  const folder = mkdtempSync(join(tmpdir(), "dates-"));
  try {
    mkdirSync(join(folder, "kit"));
    writeFileSync(join(folder, "kit", "one.ts"), text);
    execFileSync(process.execPath, [fileURLToPath(new URL("../scripts/check-dates.mjs", import.meta.url)), folder], {
      stdio: "pipe",
    });
    return "";
  } catch (error) {
    return String((error as { stderr: Buffer }).stderr);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

test("the check refuses what reads a written date, and formatters beside the kept ones", () => {
  const refused = checked(`
    const day = new Intl.DateTimeFormat("en-CA").format(0);
    const sorted = new Date(0).toLocaleDateString("sv-SE");
    const year = longDay("en-GB", "UTC", 0).slice(-4);
    const ms = Date.parse(weekday("en-GB", "UTC", 0));
  `);
  expect([...refused.matchAll(/one\.ts:(\d)/g)].map((hit) => hit[1])).toEqual(["2", "2", "3", "3", "4", "5"]);
  expect(checked('const shown = longDay("en-GB", "UTC", 0) + new Date(0).toISOString().slice(0, 10);')).toBe("");
});
