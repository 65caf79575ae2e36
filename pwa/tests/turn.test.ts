/** The look between two turns. */

import { expect, test } from "vitest";
import type { CarMap } from "../src/kit/api";
import { firstNew, placesOfTurn } from "../src/report/turn";

const zone = (kind: string) => ({ kind });
const MAP = {
  zones: {
    nose: zone("end"),
    "front-left": zone("corner"),
    "front-right": zone("corner"),
    tail: zone("end"),
    "rear-left": zone("corner"),
    "rear-right": zone("corner"),
    roof: zone("roof"),
    "under-front": zone("underside"),
    "under-rear": zone("underside"),
  },
} as unknown as CarMap;

test("six places: four corners, ahead and below", () => {
  expect(placesOfTurn(MAP)).toEqual(["front-left", "front-right", "rear-left", "rear-right", "nose", "under-front"]);
});

test("the first place with something new, in the order of the walk", () => {
  const places = placesOfTurn(MAP);
  expect(firstNew(places, {})).toBeNull();
  expect(firstNew(places, { nose: "new", "rear-left": "new", "front-left": "as-before" })).toBe("rear-left");
});
