/** How tall the capitals of the board's own font are, as a share of its size: fonts differ by a tenth. */

import type { RefObject } from "preact";
import { useLayoutEffect, useState } from "preact/hooks";

/** Large enough that whole pixels do not matter. */
const TRIED_PX = 1000;

/** Of the app's own letters and the widespread sans-serifs the lowest: where nothing can be measured, letters are rather too large. */
const LOWEST = 0.66;

/** Return capital height / font size of the font in which an element is drawn; null where that can't be measured. */
function measured(box: HTMLElement): number | null {
  const pen = document.createElement("canvas").getContext("2d");
  if (!pen) return null;
  const { fontWeight, fontFamily } = getComputedStyle(box);
  pen.font = `${fontWeight} ${TRIED_PX}px ${fontFamily}`;
  const ratio = pen.measureText("H").actualBoundingBoxAscent / TRIED_PX;
  return ratio > 0.4 && ratio < 1 ? ratio : null;
}

/** The same for as long as the element is shown: the font may come after the first measure. */
export function useCapitalRatio(box: RefObject<HTMLElement | null>): number {
  const [ratio, setRatio] = useState(LOWEST);
  useLayoutEffect(() => {
    const measure = () => setRatio((before) => (box.current && measured(box.current)) ?? before);
    measure();
    document.fonts.addEventListener("loadingdone", measure);
    return () => document.fonts.removeEventListener("loadingdone", measure);
  }, []);
  return ratio;
}
