/** Where the zones of a usual hatchback lie in its drawings: from above and below with the nose up, and from each side. */

export const SIDES = ["top", "under", "left", "right"] as const;
export type Side = (typeof SIDES)[number];

export interface Shape {
  zone: string;
  /** SVG path of the part that can be tapped. */
  d: string;
  /** Middle of its label. */
  x: number;
  y: number;
  /** Where its part that holds the label begins. */
  top: number;
  /** Middle of its marker of open reports. */
  mark: readonly [number, number];
}

/** Units of the drawing; on a phone it is as wide as the screen. */
export const WIDTH = 360;
const HEIGHT = 480;
const SIDE_HEIGHT = 300;

/** Whether a side is seen by who stands beside the car; there its nose points where it does for them. */
export const isBeside = (side: Side) => side === "left" || side === "right";

export const heightOf = (side: Side) => (isBeside(side) ? SIDE_HEIGHT : HEIGHT);

/** The whole drawing, its outer zones reaching further out on both sides. */
export const viewBox = (side: Side, reach = 0) => `${-reach} 0 ${WIDTH + 2 * reach} ${heightOf(side)}`;

// The zones fill the whole drawing, ends 77 high and three columns as wide as each other: a finger has as much as there
// is. A corner goes on beside the rounded end of the car, where the end leaves the room.
// `out`: how far the outer zones reach beyond the usual width; their labels and markers go along.
const corners = (out: number): Shape[] => {
  const [left, right] = [-out, WIDTH + out];
  const [x, to] = [60 - out / 2, 300 + out / 2];
  const [at, by] = [25 - out / 2, 335 + out / 2];
  return [
    { zone: "front-left", d: `M${left} 0H62V79H119V185H${left}Z`, x, y: 100, top: 79, mark: [at + 7, 40] },
    { zone: "front-right", d: `M${right} 0H298V79H241V185H${right}Z`, x: to, y: 100, top: 79, mark: [by - 7, 40] },
    { zone: "rear-left", d: `M${left} 295H119V401H62V480H${left}Z`, x, y: 316, top: 295, mark: [at + 7, 440] },
    { zone: "rear-right", d: `M${right} 295H241V401H298V480H${right}Z`, x: to, y: 316, top: 295, mark: [by - 7, 440] },
  ];
};

const sides = (out: number): Shape[] => [
  {
    zone: "left-side",
    d: `M${-out} 187H119V293H${-out}Z`,
    x: 60 - out / 2,
    y: 234,
    top: 187,
    mark: [25 - out / 2, 275],
  },
  {
    zone: "right-side",
    d: `M${WIDTH + out} 187H241V293H${WIDTH + out}Z`,
    x: 300 + out / 2,
    y: 234,
    top: 187,
    mark: [335 + out / 2, 275],
  },
];

const top = (out: number): Shape[] => [
  { zone: "front-end", d: "M64 77V34Q64 0 98 0H262Q296 0 296 34V77Z", x: 180, y: 40, top: 4, mark: [266, 42] },
  { zone: "engine-bay", d: "M121 79H239V158H121Z", x: 180, y: 118, top: 79, mark: [218, 141] },
  ...sides(out),
  { zone: "cabin", d: "M121 160H239V239H121Z", x: 180, y: 205, top: 160, mark: [217, 218] },
  { zone: "roof", d: "M121 241H239V320H121Z", x: 180, y: 278, top: 241, mark: [217, 302] },
  { zone: "boot", d: "M121 322H239V401H121Z", x: 180, y: 354, top: 322, mark: [217, 340] },
  {
    zone: "rear-end",
    d: "M64 403H296V446Q296 480 262 480H98Q64 480 64 446Z",
    x: 180,
    y: 440,
    top: 403,
    mark: [266, 438],
  },
];

const under = (out: number): Shape[] => [
  {
    zone: "under-front",
    d: "M64 77V34Q64 0 98 0H262Q296 0 296 34V77H239V185H121V77Z",
    x: 180,
    y: 46,
    top: 4,
    mark: [217, 166],
  },
  {
    zone: "under-middle",
    d: `M${-out} 187H${WIDTH + out}V293H${-out}Z`,
    x: 180,
    y: 240,
    top: 187,
    mark: [335 + out / 2, 275],
  },
  {
    zone: "under-rear",
    d: "M121 295H239V403H296V446Q296 480 262 480H98Q64 480 64 446V403H121Z",
    x: 180,
    y: 438,
    top: 401,
    mark: [217, 314],
  },
];

// Seen from the left: the nose at the left. Three columns above, three below, from the nose to the tail.
const beside = (out: number, side: "left" | "right"): Shape[] => {
  const columns = [-out, 119, 120, 240, 241, WIDTH + out];
  const rows = [
    { top: 0, to: 99, y: 34, mark: 72, zones: ["engine-bay", "roof", "boot"] },
    { top: 101, to: SIDE_HEIGHT, y: 132, mark: 276, zones: [`front-${side}`, `${side}-side`, `rear-${side}`] },
  ];
  return rows.flatMap(({ top: above, to, y, mark, zones }) =>
    zones.map((zone, place) => {
      const column = side === "left" ? place : 2 - place;
      const [left = 0, right = 0] = columns.slice(2 * column);
      const x = (left + right) / 2;
      return { zone, d: `M${left} ${above}H${right}V${to}H${left}Z`, x, y, top: above, mark: [x, mark] as const };
    }),
  );
};

/** The zones of a side; `out`: how far the outer ones reach beyond the usual width. */
export const shapesOf = (side: Side, out = 0): Shape[] =>
  side === "left" || side === "right" ? beside(out, side) : [...(side === "top" ? top : under)(out), ...corners(out)];

export const SHAPES = Object.fromEntries(SIDES.map((side) => [side, shapesOf(side)])) as Record<Side, Shape[]>;

const DRAWN = new Set(SIDES.flatMap((side) => SHAPES[side]).map((shape) => shape.zone));

/** Zones of a map that the drawing does not know; they are offered as buttons. */
export const undrawn = (zones: string[]): string[] => zones.filter((zone) => !DRAWN.has(zone));

/** The side that shows a zone: the one that the person is at, where it does, else the first that does. */
export const sideOf = (zone: string | null, now: Side): Side =>
  [now, ...SIDES].find((side) => zone === null || SHAPES[side].some((shape) => shape.zone === zone)) ?? now;

/** A label cut into lines that fit a zone 118 wide. `scale`: how much larger the letters are than usual. */
export function linesOf(label: string, scale = 1): string[] {
  const words = label.split(" ");
  const lines: string[] = [];
  for (const word of words) {
    const last = lines.at(-1);
    if (last !== undefined && `${last} ${word}`.length * scale <= 12.7) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
