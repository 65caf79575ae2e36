/** Who is away for all of a service: the last minute that a request may name, shown as away on their lane. */

import { expect, test } from "vitest";
import { AWAY_FOR_ALL, isAwayForAll } from "../src/report/plan";
import { boardOf } from "../src/view/lanes/board";
import { made_plan } from "./plan_made";

test("only the last minute of a day is all of it", () => {
  expect([undefined, 0, 10, AWAY_FOR_ALL - 1, AWAY_FOR_ALL].map(isAwayForAll)).toEqual([
    false,
    false,
    false,
    false,
    true,
  ]);
});

test("a lane of somebody who is away for all of it is grey from end to end", () => {
  const people = [{ person: "p-a", mechanic: true, inspector: false, from_s: AWAY_FOR_ALL * 60 }];
  const board = boardOf([{ plan: { ...made_plan, people }, offset_s: 0 }], ["p-a"]);
  expect(board.lanes[0]?.away).toEqual({ left: 0, width: 100 });
});
