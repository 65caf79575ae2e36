/** Draws all rows, looks how tall they came out, and says how many have room; again where rows or screen change. */

import type { RefObject } from "preact";
import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import { type ByPart, type Part, shownOf } from "./fit";

/** Return how many rows of each part to draw; null while all are drawn, to be measured before anybody sees them. */
export function useFit(box: RefObject<HTMLElement | null>, rows: string): ByPart<number> | null {
  const size = useSize(box);
  const [fit, setFit] = useState<{ key: string; shown: ByPart<number> } | null>(null);
  const key = `${size.said} ${rows}`;
  useLayoutEffect(() => {
    if (!box.current || fit?.key === key) return;
    setFit({ key, shown: shownOf(heightsIn(box.current), Math.min(roomIn(box.current), size.room)) });
  }, [key]);
  return fit?.key === key ? fit.shown : null;
}

// The box itself takes what room there is; its width says how large the letters are, too.
// `room` is what it had with the count of hidden rows below it, which takes lines of its own: while all rows are drawn
// to be measured there is none, and more room than there will be.
function useSize(box: RefObject<HTMLElement | null>): { said: string; room: number } {
  const [size, setSize] = useState({ said: "", room: Number.POSITIVE_INFINITY });
  useEffect(() => {
    const watcher = new ResizeObserver(([seen]) => {
      if (!seen) return;
      const { width, height } = seen.contentRect;
      setSize({ said: `${width} ${height} ${innerWidth} ${innerHeight}`, room: height });
    });
    if (box.current) watcher.observe(box.current);
    return () => watcher.disconnect();
  }, []);
  return size;
}

function roomIn(box: HTMLElement): number {
  return box.clientHeight - Number.parseFloat(getComputedStyle(box).paddingBottom);
}

function heightsIn(box: HTMLElement): ByPart<number[]> {
  const of = (part: Part) =>
    [...box.querySelectorAll(`[data-part=${part}] > ul > li`)].map((row) => row.getBoundingClientRect().height);
  return { now: of("now"), next: of("next"), reports: of("reports") };
}
