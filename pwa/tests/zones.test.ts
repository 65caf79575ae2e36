/**
 * What a finger has in the drawing of the car, in CSS pixels. 126 px are the 20 mm at which times and errors of fingers
 * level out (Colle & Hiszem, Ergonomics 47, 2004; px at 160 to the inch, as phones calculate); 56 px is the least in the car.
 */

import { describe, expect, test } from "vitest";
import { heightOf, type Shape, SIDES, type Side, shapesOf, WIDTH } from "../src/view/car/shapes";

type Point = readonly [number, number];
const PHONES = [320, 360, 390, 412];
const FINGER = 126;
const LEAST = 56;

/** A path of M, L, H, V, Q and Z as points; a curve as eight of them. */
function outline(d: string): Point[] {
  const points: Point[] = [];
  for (const [, command = "", rest = ""] of d.matchAll(/([MHVLQZ])([^MHVLQZ]*)/g)) {
    const n = (rest.match(/-?[\d.]+/g) ?? []).map(Number);
    const [x, y] = points.at(-1) ?? [0, 0];
    const [a = 0, b = 0, c = 0, e = 0] = n;
    if (command === "H") points.push([a, y]);
    else if (command === "V") points.push([x, a]);
    else if (command === "Q") for (let t = 1; t <= 8; t += 1) points.push(between([x, y], [a, b], [c, e], t / 8));
    else if (command !== "Z") points.push([a, b]);
  }
  return points;
}

const between = (p: Point, q: Point, r: Point, t: number): Point => {
  const at = (i: 0 | 1) => (1 - t) ** 2 * p[i] + 2 * t * (1 - t) * q[i] + t ** 2 * r[i];
  return [at(0), at(1)];
};

/** Even-odd, by the edges that a ray to the right crosses. */
function holds(points: Point[], [x, y]: Point): boolean {
  return points.reduce((inside, [x1, y1], at) => {
    const [x2, y2] = points[(at + 1) % points.length] ?? [0, 0];
    const crosses = y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1);
    return crosses ? !inside : inside;
  }, false);
}

const area = (points: Point[]) =>
  Math.abs(
    points.reduce((sum, [x1, y1], at) => {
      const [x2, y2] = points[(at + 1) % points.length] ?? [0, 0];
      return sum + x1 * y2 - x2 * y1;
    }, 0),
  ) / 2;

/** The larger sides of the largest upright rectangle of the widths and heights that a zone's corners give. */
function room(points: Point[]): [number, number] {
  const xs = [...new Set(points.map(([x]) => x))];
  const ys = [...new Set(points.map(([, y]) => y))];
  const fits = (l: number, t: number, r: number, b: number) =>
    [0.02, 0.5, 0.98].every((u) => [0.02, 0.5, 0.98].every((v) => holds(points, [l + (r - l) * u, t + (b - t) * v])));
  let best: [number, number] = [0, 0];
  for (const l of xs)
    for (const r of xs)
      for (const t of ys)
        for (const b of ys)
          if (r > l && b > t && Math.min(r - l, b - t) > Math.min(...best) && fits(l, t, r, b)) best = [r - l, b - t];
  return best;
}

const shapes = (side: Side, out = 0) => shapesOf(side, out).map((shape) => ({ ...shape, points: outline(shape.d) }));
const small = (all: (Shape & { points: Point[] })[], px: number, least: number) =>
  all.filter(({ points }) => Math.min(...room(points)) * px < least).map(({ zone }) => zone);

describe.each(SIDES)("%s", (side) => {
  test("a zone is at least 56 px both ways on every phone, upright and on its side", () => {
    for (const phone of PHONES) expect(small(shapes(side), phone / WIDTH, LEAST), `${phone}`).toEqual([]);
    expect(small(shapes(side, 66), 360 / 480, LEAST)).toEqual([]);
  });

  test("corners and sides, the commonest, have 20 mm less a tenth on a phone 390 wide; nothing has less than 83 px", () => {
    const px = 390 / WIDTH;
    const common = shapes(side).filter(({ zone }) => /left|right|under/.test(zone));
    expect(small(common, px, 0.9 * FINGER)).toEqual([]);
    expect(small(shapes(side), px, 83)).toEqual([]);
    const narrow = common.filter(({ points }) => Math.sqrt(area(points)) * px < 0.95 * FINGER);
    expect(narrow.map(({ zone }) => zone)).toEqual([]);
  });

  test("zones do not overlap, and leave no more than a twentieth of the drawing to nobody", () => {
    for (const out of [0, 66]) {
      const all = shapes(side, out);
      let nobody = 0;
      for (let x = 0.5 - out; x < WIDTH + out; x += 3)
        for (let y = 0.5; y < heightOf(side); y += 3) {
          const here = all.filter(({ points }) => holds(points, [x, y]));
          expect(here.length).toBeLessThan(2);
          if (here.length === 0) nobody += 9;
        }
      expect(nobody / (WIDTH * heightOf(side))).toBeLessThan(0.05);
    }
  });

  test("a zone's label, its marker and the middle that a finger aims at are in it", () => {
    for (const out of [0, 66])
      for (const { zone, points, x, y, mark } of shapes(side, out)) {
        const [xs, ys] = [points.map(([at]) => at), points.map(([, at]) => at)];
        const middle = [xs, ys].map((all) => (Math.min(...all) + Math.max(...all)) / 2) as unknown as Point;
        const aimed: Point[] = [[x, y], [mark[0] - 15, mark[1]], [mark[0] + 15, mark[1]], middle];
        expect(
          aimed.filter((one) => !holds(points, one)),
          zone,
        ).toEqual([]);
      }
  });
});
