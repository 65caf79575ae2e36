/** What leaving at a minute costs. */

import { expect, test } from "vitest";
import { leavingAt } from "../src/report/leaving";
import { setup } from "./making";

const rules = (change: object = {}) => ({
  regulations: {
    ...setup().regulations,
    late_penalty_s_per_minute: 10,
    early_penalty_s_per_minute: 60,
    late_limit_minutes: 15,
    ...change,
  },
});
const at = (clock: string) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));
const leaving = (clock: string, due = "10:00", change: object = {}) => leavingAt(at(clock), at(due), rules(change));

// Motorsport UK, National Competition Rules 2026, Ch. 13 App. 8 1.3: 10 s a minute late, 60 s a minute early.
test.each([
  ["09:58", 120],
  ["09:59", 60],
  ["10:00", 0],
  ["10:01", 10],
  ["10:03", 30],
])("due 10:00, out %s costs %i s", (clock, penalty_s) => expect(leaving(clock).penalty_s).toBe(penalty_s));

test("more than one control allows is out, and not before", () => {
  expect(leaving("10:15")).toMatchObject({ late_min: 15, is_out: false });
  expect(leaving("10:16")).toMatchObject({ late_min: 16, is_out: true });
});

test("over midnight the nearer way counts", () => {
  expect(leaving("00:02", "23:58")).toMatchObject({ late_min: 4, early_min: 0, penalty_s: 40 });
  expect(leaving("23:59", "00:01")).toMatchObject({ late_min: 0, early_min: 2, penalty_s: 120 });
});

test("where lateness is not penalised it costs nothing", () => {
  expect(leaving("10:05", "10:00", { late_penalty_s_per_minute: 0 })).toMatchObject({ late_min: 5, penalty_s: 0 });
});
