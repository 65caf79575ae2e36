/** What the first screens ask of all entries, worked out a step at a time: each answer is kept by its list, and there when it is asked. */

import type { EventSetup } from "../kit/api";
import { areMany, pausesFor } from "../kit/pauses";
import { clockIn } from "../kit/time";
import { countedOf } from "./counted";
import { reportsOf } from "./effective";
import { headsIn } from "./heads";
import { entriesOf, ofCar, ofKind } from "./lists";
import { lastSeen } from "./prefill";
import { entriesShown, type RoadInput } from "./road";
import { currentService } from "./service";

/** Work it out where the entries are many, with a pause after each step; `road.entries`: of one event. */
export async function workOut(road: RoadInput): Promise<void> {
  if (!areMany(road.entries.length)) return;
  const pause = pausesFor(road.entries.length);
  for (const _ of steps(road)) await pause();
}

function* steps(road: RoadInput): Generator<void> {
  const { entries: held, car, setup, now_ms } = road;
  if (!car || !setup) return;
  // The first formatter of a page takes as long as a thousand entries.
  yield void clockIn(setup.timezone, now_ms);
  yield* stepsOf(held, car, setup);
  const shown = entriesShown(road);
  yield;
  if (shown !== held) yield* stepsOf(shown, car, setup);
  yield void reportsOf(shown, car);
}

function* stepsOf(held: RoadInput["entries"], car: string, setup: EventSetup): Generator<void> {
  const entries = entriesOf(held);
  yield;
  yield void ofCar(entries, car);
  const counted = countedOf(entries, car, setup);
  yield;
  yield void ofKind(counted, "service.entered");
  yield void headsIn(counted);
  const order = setup.stages.map((one) => one.stage);
  yield void lastSeen(counted, order);
  yield void currentService(entries, car, setup);
}
