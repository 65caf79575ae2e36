/** A ring on a photo: where it lies, how thick it is, and which place of the photo a finger points at. Pure. */

export interface Size {
  width: number;
  height: number;
}

export interface Point {
  x: number;
  y: number;
}

/** Parts of the photo as it is seen: `x` of its width, `y` of its height, `across` (the ring's middle line) of its shorter side. */
export interface Ring extends Point {
  across: number;
}

/** Quarter turns clockwise. */
export type Turn = 0 | 1 | 2 | 3;

/** What is drawn on a photo: first it is turned, then it gets its ring. */
export interface Marking {
  ring: Ring;
  turn: Turn;
}

export const MIDDLE: Ring = { x: 0.5, y: 0.5, across: 0.3 };
export const SMALLEST = 0.06;
export const LARGEST = 1;

/** The line and the edge on both sides of it: whatever the photo shows, one of the two stands out on it. */
export const COLOURS = { line: "#ffffff", edge: "#000000" };

/** Lines as parts of the shorter side: as clear on a large photo as on a small one. */
const WHITE = 0.014;
const EDGE = 0.006;

const within = (value: number, least: number, most: number) => Math.min(most, Math.max(least, value));

/** Return the ring with its middle on the photo and its size between the bounds. */
export function held({ x, y, across }: Ring): Ring {
  return { x: within(x, 0, 1), y: within(y, 0, 1), across: within(across, SMALLEST, LARGEST) };
}

/** Return the size of a photo as it is seen after so many turns. */
export function seenAs({ width, height }: Size, turn: Turn): Size {
  return turn % 2 ? { width: height, height: width } : { width, height };
}

/** Return how a photo is moved and turned about its corner, so that it fills `seenAs`. */
export function turning({ width, height }: Size, turn: Turn): Point & { degrees: number } {
  const corner = [
    { x: 0, y: 0 },
    { x: height, y: 0 },
    { x: width, y: height },
    { x: 0, y: width },
  ][turn] as Point;
  return { ...corner, degrees: turn * 90 };
}

/** Return the marking after one more turn: the ring stays on its place of the photo. */
export function turnedOn({ ring, turn }: Marking): Marking {
  return { ring: { ...ring, x: 1 - ring.y, y: ring.x }, turn: ((turn + 1) % 4) as Turn };
}

/**
 * Return the pixel of a seen photo at a point of the screen, clamped to the photo.
 *
 * `box`: what shows it, in CSS pixels; the photo lies in its middle, as large as fits whole (`object-fit: contain`, CSS
 * Images 3, 4.5; the same as `xMidYMid meet` of SVG 2, 8.6).
 */
export function pixelAt(box: Size & { left: number; top: number }, seen: Size, point: Point): Point {
  const scale = Math.min(box.width / seen.width, box.height / seen.height);
  const left = box.left + (box.width - seen.width * scale) / 2;
  const top = box.top + (box.height - seen.height * scale) / 2;
  return {
    x: within((point.x - left) / scale, 0, seen.width),
    y: within((point.y - top) / scale, 0, seen.height),
  };
}

/** Return the ring with its middle on a pixel of the seen photo. */
export const movedTo = (ring: Ring, seen: Size, { x, y }: Point): Ring =>
  held({ ...ring, x: x / seen.width, y: y / seen.height });

/** Return the circle in pixels of the seen photo, and how wide its white line and the black one under it are. */
export function circleOf({ x, y, across }: Ring, seen: Size) {
  const side = Math.min(seen.width, seen.height);
  const white = Math.max(2, side * WHITE);
  const black = white + 2 * Math.max(1, side * EDGE);
  return { x: x * seen.width, y: y * seen.height, radius: (across * side) / 2, white, black };
}
