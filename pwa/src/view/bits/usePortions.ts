/** Lets a long list come in portions, each in a frame of its own, so that no tap waits until hundreds of rows are drawn. */

import { useEffect, useState } from "preact/hooks";

/** More than a screen holds, at once. */
const FIRST = 40;

/** In each frame after it. */
const MORE = 60;

/** Return how many of so many rows are drawn by now. A list that was drawn whole stays so. */
export function usePortions(count: number): number {
  const [drawn, setDrawn] = useState(FIRST);
  useEffect(() => {
    if (drawn >= count) return;
    // Effects come after the frame; a hidden page has no frames, and a timer comes there, too.
    const timer = setTimeout(() => setDrawn(drawn + MORE), 0);
    return () => clearTimeout(timer);
  }, [drawn, count]);
  return drawn;
}

/** Return the first groups of a list, whole, up to the one in which so many rows are reached. */
export function upTo<Group>(groups: Group[], rows: number, sizeOf: (group: Group) => number): Group[] {
  let before = 0;
  return groups.filter((group) => {
    const isIn = before < rows;
    before += sizeOf(group);
    return isIn;
  });
}
