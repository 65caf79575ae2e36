/** One button records: held or tapped, with a phone that asks for leave or not. */

import { expect, test } from "vitest";
import { after, type Deed, type Happening, type Holding, IDLE, LONGEST_MS } from "../src/report/holding";

/** Happenings with their times; returns how it ends and all that was to be done. */
function told(...steps: [Happening, number][]): [Holding["at"], Deed[]] {
  const deeds: Deed[] = [];
  let now: Holding = IDLE;
  for (const [what, at_ms] of steps) {
    const [next, deed] = after(now, what, at_ms);
    now = next;
    if (deed) deeds.push(deed);
  }
  return [now.at, deeds];
}

test("held and let go, it is kept", () => {
  expect(told(["pressed", 0], ["granted", 80], ["clock", 2_000], ["released", 4_000])).toEqual([
    "idle",
    ["ask", "keep"],
  ]);
});

test("tapped, it goes on until the next tap", () => {
  const tapped: [Happening, number][] = [
    ["pressed", 0],
    ["granted", 80],
    ["released", 150],
  ];
  expect(told(...tapped, ["clock", 9_000])).toEqual(["recording", ["ask"]]);
  expect(told(...tapped, ["pressed", 9_000], ["released", 9_100])).toEqual(["idle", ["ask", "keep"]]);
});

test("a tap that is over before the microphone is there records all the same", () => {
  expect(told(["pressed", 0], ["released", 60], ["granted", 200])[0]).toBe("recording");
});

test("whoever had to let go to give leave is not recorded unawares", () => {
  expect(told(["pressed", 0], ["released", 1_500], ["granted", 4_000])).toEqual(["idle", ["ask", "drop"]]);
  expect(told(["pressed", 0], ["granted", 4_000], ["released", 8_000])).toEqual(["idle", ["ask", "keep"]]);
});

test("refused, it can be tried again", () => {
  expect(told(["pressed", 0], ["refused", 50], ["released", 60], ["pressed", 500])).toEqual(["asking", ["ask", "ask"]]);
});

test("it ends by itself, and the finger that lets go later does nothing", () => {
  const all: [Happening, number][] = [
    ["pressed", 0],
    ["granted", 50],
    ["clock", 50 + LONGEST_MS],
  ];
  expect(told(...all)).toEqual(["idle", ["ask", "keep"]]);
  expect(told(...all, ["released", 70_000])).toEqual(["idle", ["ask", "keep"]]);
});
