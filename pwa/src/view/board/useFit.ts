/** Draws all rows, looks how tall they came out, and says how many have room; anew where rows or screen change. */

import type { RefObject } from "preact";
import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import { type ByPart, type Part, shownOf } from "./fit";

/** Return how many rows of each part to draw; null while all are drawn, to be measured before anybody sees them. */
export function useFit(box: RefObject<HTMLElement | null>, rows: string): ByPart<number> | null {
  const size = useSize(box);
  const [fit, setFit] = useState<{ key: string; shown: ByPart<number> } | null>(null);
  const key = `${size} ${rows}`;
  useLayoutEffect(() => {
    if (!box.current || fit?.key === key) return;
    setFit({ key, shown: shownOf(heightsIn(box.current), box.current.clientHeight) });
  }, [key]);
  return fit?.key === key ? fit.shown : null;
}

// The box itself takes what room there is; its width says how large the letters are, too.
function useSize(box: RefObject<HTMLElement | null>): string {
  const [size, setSize] = useState("");
  useEffect(() => {
    const watcher = new ResizeObserver(([seen]) => {
      if (seen) setSize(`${seen.contentRect.width} ${seen.contentRect.height} ${innerWidth} ${innerHeight}`);
    });
    if (box.current) watcher.observe(box.current);
    return () => watcher.disconnect();
  }, []);
  return size;
}

function heightsIn(box: HTMLElement): ByPart<number[]> {
  const of = (part: Part) =>
    [...box.querySelectorAll(`[data-part=${part}] > ul > li`)].map((row) => row.getBoundingClientRect().height);
  return { now: of("now"), next: of("next"), reports: of("reports") };
}
