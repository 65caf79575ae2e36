/**
 * Where a finger on the screen points on a photo, and how the ring is drawn.
 *
 * Against CSS Images 3 (W3C, 4.5: `contain` scales to the largest size that fits whole, centred by the initial
 * `object-position`) by its rule worked by hand, and WCAG 2.2 1.4.11 (3:1) by its definition of contrast.
 */

import { describe, expect, test } from "vitest";
import {
  COLOURS,
  circleOf,
  held,
  LARGEST,
  MIDDLE,
  type Marking,
  movedTo,
  pixelAt,
  type Ring,
  SMALLEST,
  seenAs,
  type Turn,
  turnedOn,
  turning,
} from "../src/kit/ring";

const photo = { width: 1600, height: 1200 };

describe("a point of the screen is a pixel of the photo", () => {
  // 390 / 1600 < 400 / 1200: the width decides, scale 0.24375, height 292.5, so (400 − 292.5) / 2 = 53.75 above it.
  const upright = { left: 10, top: 100, width: 390, height: 400 };

  test("with bands above and below", () => {
    expect(pixelAt(upright, photo, { x: 10, y: 153.75 })).toEqual({ x: 0, y: 0 });
    expect(pixelAt(upright, photo, { x: 205, y: 300 })).toEqual({ x: 800, y: 600 });
    expect(pixelAt(upright, photo, { x: 400, y: 446.25 })).toEqual({ x: 1600, y: 1200 });
  });

  // Turned once it is seen as 1200 × 1600: the height decides, scale 0.25, width 300, so (390 − 300) / 2 = 45 beside it.
  test("with bands left and right, once it is turned", () => {
    const seen = seenAs(photo, 1);
    expect(seen).toEqual({ width: 1200, height: 1600 });
    expect(pixelAt(upright, seen, { x: 55, y: 100 })).toEqual({ x: 0, y: 0 });
    expect(pixelAt(upright, seen, { x: 130, y: 200 })).toEqual({ x: 300, y: 400 });
  });

  test("on a band it is the photo's edge", () => {
    expect(pixelAt(upright, photo, { x: 205, y: 100 })).toEqual({ x: 800, y: 0 });
    expect(pixelAt(upright, photo, { x: -500, y: 9000 })).toEqual({ x: 0, y: 1200 });
  });

  test("and the ring's middle goes there, its size as it was", () => {
    expect(movedTo({ ...MIDDLE, across: 0.4 }, photo, { x: 400, y: 900 })).toEqual({ x: 0.25, y: 0.75, across: 0.4 });
  });
});

describe("turning", () => {
  /** A pixel of the photo as it lies, moved as the canvas and the SVG move it: turned about the corner, then shifted. */
  function shown(at: { x: number; y: number }, turn: Turn) {
    const { x, y, degrees } = turning(photo, turn);
    const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
    return { x: x + at.x * cos - at.y * sin, y: y + at.x * sin + at.y * cos };
  }

  test.each([0, 1, 2, 3] as Turn[])("after %i quarters the photo fills what it is seen as", (turn) => {
    const [one, other] = [shown({ x: 0, y: 0 }, turn), shown({ x: photo.width, y: photo.height }, turn)];
    const seen = seenAs(photo, turn);
    expect(Math.min(one.x, other.x)).toBeCloseTo(0);
    expect(Math.min(one.y, other.y)).toBeCloseTo(0);
    expect(Math.max(one.x, other.x)).toBeCloseTo(seen.width);
    expect(Math.max(one.y, other.y)).toBeCloseTo(seen.height);
  });

  test("the ring stays on the same pixel of the photo", () => {
    let marking: Marking = { ring: { x: 0.1, y: 0.3, across: 0.2 }, turn: 0 };
    for (const turn of [1, 2, 3, 0] as Turn[]) {
      marking = turnedOn(marking);
      expect(marking.turn).toBe(turn);
      const circle = circleOf(marking.ring, seenAs(photo, turn));
      const there = shown({ x: 160, y: 360 }, turn);
      expect(circle.x).toBeCloseTo(there.x);
      expect(circle.y).toBeCloseTo(there.y);
      expect(circle.radius).toBeCloseTo(120);
    }
  });
});

test("the ring keeps its middle on the photo and its size between the bounds", () => {
  expect(held({ x: -1, y: 7, across: 0 })).toEqual({ x: 0, y: 1, across: SMALLEST });
  expect(held({ x: 0.2, y: 0.9, across: 30 }).across).toBe(LARGEST);
});

test("lines grow with the photo, and the black one shows on both sides of the white", () => {
  const ring: Ring = { x: 0.5, y: 0.5, across: 0.5 };
  const [large, small] = [circleOf(ring, photo), circleOf(ring, { width: 800, height: 600 })];
  expect([large.radius, small.radius]).toEqual([300, 150]);
  expect(large.white / small.white).toBeCloseTo(2);
  for (const { white, black } of [large, small, circleOf(ring, { width: 40, height: 30 })])
    expect(black - white).toBeGreaterThanOrEqual(2);
});

/** WCAG 2.2, "relative luminance": a grey's is its channel, made linear. */
function luminanceOf(grey: string): number {
  const channel = Number.parseInt(grey.slice(1, 3), 16) / 255;
  return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
}

// WCAG 2.2, "contrast ratio" and 1.4.11: (L1 + 0.05) / (L2 + 0.05), at least 3:1 for what carries a meaning.
test("on a ground of any lightness the line or its edge stands out", () => {
  const ratio = (a: number, b: number) => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
  const lines = Object.values(COLOURS).map(luminanceOf);
  for (let ground = 0; ground <= 1; ground += 0.001)
    expect(Math.max(...lines.map((line) => ratio(line, ground)))).toBeGreaterThanOrEqual(3);
});
