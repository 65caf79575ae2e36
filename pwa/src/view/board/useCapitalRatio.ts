/** How tall the capitals of the board's own font are, as a share of its size: fonts differ by a tenth. */

import type { RefObject } from "preact";
import { useLayoutEffect, useState } from "preact/hooks";

/** Large enough that whole pixels do not matter. */
const TRIED_PX = 1000;

/** Of the widespread sans-serifs the lowest: where nothing can be measured, letters are rather too large. */
const LOWEST = 0.7;

/** Return capital height / font size of the font in which an element is drawn. */
export function useCapitalRatio(box: RefObject<HTMLElement | null>): number {
  const [ratio, setRatio] = useState(LOWEST);
  useLayoutEffect(() => {
    const pen = document.createElement("canvas").getContext("2d");
    if (!box.current || !pen) return;
    const { fontWeight, fontFamily } = getComputedStyle(box.current);
    pen.font = `${fontWeight} ${TRIED_PX}px ${fontFamily}`;
    const measured = pen.measureText("H").actualBoundingBoxAscent / TRIED_PX;
    if (measured > 0.4 && measured < 1) setRatio(measured);
  }, []);
  return ratio;
}
