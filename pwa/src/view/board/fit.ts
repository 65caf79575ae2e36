/** Which rows have room on the board, so that the rest can be counted. Pure. */

/** The parts of the board, in the order of the screen. */
export const PARTS = ["now", "next", "reports"] as const;
export type Part = (typeof PARTS)[number];

/** Rows by part: their heights, or how many there are. */
export type ByPart<T> = Record<Part, T>;

/** Who gets the next line: two people, the newest report, what comes next; after that they go round. */
const FIRST: Part[] = ["now", "reports", "next", "now"];
const ROUND: Part[] = ["now", "reports", "now", "next"];

/**
 * Return how many rows of each part are shown in `room` px. Rows keep their order: behind one that has no room, none of
 * its part is shown.
 */
export function shownOf(heights: ByPart<number[]>, room: number): ByPart<number> {
  const shown: ByPart<number> = { now: 0, next: 0, reports: 0 };
  const open = new Set<Part>(PARTS);
  let left = room;
  for (let turn = 0; open.size > 0; turn += 1) {
    const part = turnOf(turn);
    if (!open.has(part)) continue;
    const height = heights[part][shown[part]];
    if (height === undefined || height > left) {
      open.delete(part);
      continue;
    }
    left -= height;
    shown[part] += 1;
  }
  return shown;
}

const turnOf = (turn: number): Part =>
  (turn < FIRST.length ? FIRST[turn] : ROUND[(turn - FIRST.length) % ROUND.length]) as Part;
