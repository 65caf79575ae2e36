/** What the season teaches: where columns and lines stand, the shopping list, and what accepting asks and says. */

import { beforeEach, expect, test } from "vitest";
import type { SeasonEvent, SeasonOperation, Spares } from "../src/kit/api";
import type { Core } from "../src/flow/core";
import { routeOf } from "../src/flow/route";
import { acceptRates, askSpares } from "../src/flow/season";
import { keepAnswer, SETUP_KEY } from "../src/store/answers";
import { sparesKey } from "../src/store/season";
import type { Db } from "../src/store/db";
import { columnsOf, dumbbellsOf, roundUp, shoppingOf, shoppingText } from "../src/view/season/layout";
import { bare, number } from "../src/view/season/names";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, EVENT, joined, phone, setup } from "./making";

const event = (name: string, estimate: string, actual: string, currency = "EUR") =>
  ({ event: name, name, currency, estimate, actual }) as SeasonEvent;

test("columns are shares of a round top, one axis for each currency", () => {
  const [euro, crowns] = columnsOf([
    event("a", "1500.00", "3100.00"),
    event("k", "90.00", "20.00", "SEK"),
    event("b", "-10.00", "0.00"),
  ]);
  expect(euro).toMatchObject({ currency: "EUR", top: 4000 });
  expect(euro?.columns.map((one) => [one.event.event, one.estimate_share, one.actual_share])).toEqual([
    ["a", 0.375, 0.775],
    ["b", 0, 0],
  ]);
  expect(crowns).toMatchObject({ currency: "SEK", top: 100 });
});

test("the top of an axis is the next round number, and nothing at all still has one", () => {
  expect([0, 0.3, 1, 1.1, 41, 400, 999].map(roundUp)).toEqual([1, 0.4, 1, 2, 50, 400, 1000]);
  expect(columnsOf([event("a", "0.00", "0.00")])[0]?.top).toBe(1);
});

const minutes = (estimate_minutes: number, actual_minutes: number, least_minutes: number, most_minutes: number) =>
  ({ estimate_minutes, actual_minutes, least_minutes, most_minutes }) as SeasonOperation;

test("minutes stand on one scale of what the table expects, and what is far off runs out of it", () => {
  const { top, rows } = dumbbellsOf([minutes(10, 15, 5, 20), minutes(4, 4, 4, 4)]);
  expect(top).toBe(2);
  expect(rows.map(({ operation, ...shares }) => shares)).toEqual([
    { estimate: 0.5, actual: 0.75, least: 0.25, most: 1, beyond: false },
    { estimate: 0.5, actual: 0.5, least: 0.5, most: 0.5, beyond: false },
  ]);
  expect(dumbbellsOf([minutes(5, 20, 5, 60)])).toMatchObject({ top: 4, rows: [{ actual: 1, most: 1, beyond: true }] });
  expect(dumbbellsOf([])).toEqual({ top: 1.5, rows: [] });
});

const cell = (cover: number, buy: number, buy_cost: string | null) => ({
  cover,
  stock: 2,
  cost: "9.00",
  buy,
  buy_cost,
});
const SPARES = {
  event: EVENT,
  currency: "EUR",
  parts: [
    { part: "ARM-1", description: "Lower arm", covers: [cell(90, 0, "0.00"), cell(95, 2, "290.00")] },
    { part: "X-9", description: "", covers: [cell(90, 0, null), cell(95, 1, null)] },
  ],
  totals: [
    { cover: 90, cost: "0.00", buy_cost: "0.00" },
    { cover: 95, cost: "18.00", buy_cost: "1290.00" },
  ],
} as unknown as Spares;

test("the shopping list holds what the cover lacks, with the server's own total", () => {
  expect(shoppingOf(SPARES, 90)).toEqual({ items: [], total: "0.00" });
  const words = { head: "To buy", total: "Total", noPrice: "no price" };
  expect(shoppingText(shoppingOf(SPARES, 95), "EUR", words)).toBe(
    "To buy\n2 × Lower arm (ARM-1), 290.00 EUR\n1 × X-9 (X-9), no price\nTotal: 1,290.00 EUR",
  );
});

test("numbers set thousands apart and change no digit", () => {
  expect([0, 12.25, 1234.5, 1234567].map(number)).toEqual(["0", "12.25", "1,234.5", "1,234,567"]);
  expect(["-1234.50", "999.00"].map(bare)).toEqual(["−1,234.50", "999.00"]);
});

let db: Db;
let core: Core;
let asked: { path: string; body: unknown }[] = [];

beforeEach(async () => {
  asked = [];
  db = await phone();
  core = freshCore(db, "p-jo", () => AT_MS);
  const people = [{ person: "p-jo", name: "Jo", roles: ["manager" as const], skills: [] }];
  const answer = { log_id: "l", events: [setup({ people })] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 0 });
  await joined(db, "p-jo", "d-1", { roles: ["manager"] });
  await core.refresh();
});

function answers(status: number, body: object, type = "application/json") {
  core.fetch = async (path, init) => {
    asked.push({ path, body: typeof init.body === "string" ? JSON.parse(init.body) : null });
    return new Response(JSON.stringify(body), { status, headers: { "Content-Type": type } });
  };
}

const refuses = (status: number, title: string, detail: string) =>
  answers(status, { type: "x", code: "not-possible", title, status, detail }, "application/problem+json");

const WHEEL = { component: "wheel", condition: "bent", action: "replace", zone: "" };

test("accepting names the version that was shown, and tells the new one", async () => {
  answers(200, { before: "old", rates: "new", events: [EVENT], operations: [] });
  expect((await acceptRates(core, "old", [WHEEL])).rates).toBe("new");
  expect(asked[0]).toEqual({ path: "/api/v1/rates/accept", body: { rates: "old", operations: [WHEEL] } });
});

test("a table that changed meanwhile is refused in words; a server that is away leaves it open", async () => {
  refuses(409, "Not possible", "the rate table old is not in force any more");
  await expect(acceptRates(core, "old", [WHEEL])).rejects.toThrow(
    /Nothing was changed: .* is out of date.*not in force/,
  );
  answers(503, {});
  await expect(acceptRates(core, "old", [WHEEL])).rejects.toThrow(/can't tell whether/);
  answers(200, { before: "another", rates: "new", operations: [] });
  await expect(acceptRates(core, "old", [WHEEL])).rejects.toThrow(/can't tell whether/);
});

test("a server that falls over what it is asked says so itself, and nobody is sent to look for signal", async () => {
  refuses(500, "Unforeseen error", "its log has the details");
  await expect(acceptRates(core, "old", [WHEEL])).rejects.toThrow("Unforeseen error. its log has the details");
  await expect(askSpares(core, { km: 5, cars: 1 })).rejects.toThrow("Unforeseen error. its log has the details");
});

test("spares for another event are asked for, kept, and seen on the season's screen alone", async () => {
  answers(200, SPARES);
  await askSpares(core, { km: 120.5, cars: 3 });
  expect(asked[0]?.path).toBe(`/api/v1/events/${EVENT}/spares?km=120.5&cars=3`);
  expect(core.page.spares_wish).toEqual({ km: 120.5, cars: 3 });
  expect((await db.get("answers", sparesKey(EVENT)))?.heard_at).toBe(new Date(AT_MS).toISOString());
  expect(core.snapshot().state.season).toBeNull();
  core.page.hash = "#/season";
  await core.refresh();
  expect(core.snapshot().state.season?.spares?.answer.parts).toHaveLength(2);
  expect(routeOf("#/season", ["manager"]).screen).toBe("season");
});

test("what can't be calculated is said in the server's words, and the last answer stays", async () => {
  answers(200, SPARES);
  await askSpares(core, { km: 100, cars: 2 });
  refuses(409, "Not possible", "ask for fewer cars or km");
  await expect(askSpares(core, { km: 5000, cars: 50 })).rejects.toThrow("ask for fewer cars or km");
  expect(core.page.spares_wish).toEqual({ km: 100, cars: 2 });
  expect(await db.get("answers", sparesKey(EVENT))).toBeTruthy();
});
