/** The night's work of a car that restarts is what is planned until it has to be ready, and no longer. */

import { expect, test } from "vitest";
import type { AppState } from "../src/flow/model";
import { READY_BY } from "../src/report/retirement";
import { overnightOf, serviceToPlan } from "../src/view/plan/usePlanning";
import type { CarScreen } from "../src/view/screen";
import { AT, AT_MS, CAR, entry, setup } from "./making";

const READY_MS = AT_MS + 60 * 60_000;
const comes = entry("car.restarts", { ready_by: new Date(READY_MS).toISOString() }, { at: AT });
const screen = (now: number): CarScreen => {
  const state = { entries: [{ entry: comes, state: "acknowledged" }], now, planned: null, plans: [] };
  return { state: state as unknown as AppState, setup: setup(), car: CAR } as unknown as CarScreen;
};

test("while there is time the night is planned, once it is over the next service", () => {
  expect(serviceToPlan(screen(AT_MS))?.service).toBe(READY_BY);
  expect(overnightOf(screen(READY_MS - 90_000))?.service.minutes).toBe(1);
  expect(overnightOf(screen(READY_MS))).toBeNull();
  expect(serviceToPlan(screen(READY_MS))?.service).not.toBe(READY_BY);
});
