/** Where the zones of a usual hatchback lie in the drawing: 360 wide, 500 high, front at the top, left is the car's left. */

export type Side = "top" | "under";

export interface Shape {
  zone: string;
  /** SVG path of the part that can be tapped. */
  d: string;
  /** Middle of its label. */
  x: number;
  y: number;
  /** Middle of its marker of open reports. */
  mark: readonly [number, number];
}

const CORNERS: Shape[] = [
  { zone: "front-left", d: "M4 89Q4 79 14 79H110V182H14Q4 182 4 172Z", x: 57, y: 104, mark: [26, 150] },
  { zone: "front-right", d: "M250 79H346Q356 79 356 89V172Q356 182 346 182H250Z", x: 303, y: 104, mark: [334, 150] },
  { zone: "rear-left", d: "M4 334Q4 324 14 324H110V420H14Q4 420 4 410Z", x: 57, y: 350, mark: [26, 402] },
  { zone: "rear-right", d: "M250 324H346Q356 324 356 334V410Q356 420 346 420H250Z", x: 303, y: 350, mark: [334, 402] },
];

const TOP: Shape[] = [
  { zone: "front-end", d: "M56 75Q58 24 108 12Q180 -2 252 12Q302 24 304 75Z", x: 180, y: 46, mark: [262, 48] },
  { zone: "engine-bay", d: "M114 79H246V178Q180 162 114 178Z", x: 180, y: 128, mark: [226, 106] },
  { zone: "left-side", d: "M14 186H110V320H14Q4 320 4 310V196Q4 186 14 186Z", x: 57, y: 248, mark: [26, 292] },
  { zone: "right-side", d: "M250 186H346Q356 186 356 196V310Q356 320 346 320H250Z", x: 303, y: 248, mark: [334, 292] },
  { zone: "cabin", d: "M114 183Q180 167 246 183V246H114Z", x: 180, y: 222, mark: [226, 230] },
  { zone: "roof", d: "M114 250H246V320H114Z", x: 180, y: 280, mark: [226, 302] },
  { zone: "boot", d: "M114 324H246V420H114Z", x: 180, y: 374, mark: [226, 350] },
  {
    zone: "rear-end",
    d: "M56 424H304Q302 476 262 488Q180 500 98 488Q58 476 56 424Z",
    x: 180,
    y: 460,
    mark: [262, 458],
  },
];

const UNDER: Shape[] = [
  {
    zone: "under-front",
    d: "M56 75Q58 24 108 12Q180 -2 252 12Q302 24 304 75H246V182H114V75Z",
    x: 180,
    y: 112,
    mark: [226, 164],
  },
  {
    zone: "under-middle",
    d: "M14 186H346Q356 186 356 196V310Q356 320 346 320H14Q4 320 4 310V196Q4 186 14 186Z",
    x: 180,
    y: 253,
    mark: [320, 290],
  },
  {
    zone: "under-rear",
    d: "M114 324H246V424H304Q302 476 262 488Q180 500 98 488Q58 476 56 424H114Z",
    x: 180,
    y: 400,
    mark: [226, 342],
  },
];

export const SHAPES: Record<Side, Shape[]> = { top: [...TOP, ...CORNERS], under: [...UNDER, ...CORNERS] };

const DRAWN = new Set([...SHAPES.top, ...SHAPES.under].map((shape) => shape.zone));

/** Zones of a map that the drawing does not know; they are offered as buttons. */
export const undrawn = (zones: string[]): string[] => zones.filter((zone) => !DRAWN.has(zone));

/** The side that shows a zone best; corners are on both, so they stay where the person is. */
export const sideOf = (zone: string | null, now: Side): Side =>
  zone === null || SHAPES[now].some((shape) => shape.zone === zone) ? now : now === "top" ? "under" : "top";

/** A label cut into lines that fit a zone about 100 wide. */
export function linesOf(label: string): string[] {
  const words = label.split(" ");
  const lines: string[] = [];
  for (const word of words) {
    const last = lines.at(-1);
    if (last !== undefined && `${last} ${word}`.length <= 11) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
