/** Which check list a look goes through. */

import { expect, test } from "vitest";
import type { Job } from "../src/kit/api";
import { checksOf } from "../src/report/looks";

const LOOKS = { brake: ["Bare", "Pedal firm"], other: ["Bare", "Tight"] };
const job = (group: string | null) => ({ group }) as Job;

test("a corner's looks share their checks, each once", () => {
  expect(checksOf([job("brake"), job(null)], LOOKS)).toEqual(["Bare", "Pedal firm", "Tight"]);
});

test("a group without a list, whatever its name, takes the list of the others", () => {
  expect(checksOf([job("harness")], LOOKS)).toEqual(["Bare", "Tight"]);
  expect(checksOf([job("constructor")], LOOKS)).toEqual(["Bare", "Tight"]);
});
