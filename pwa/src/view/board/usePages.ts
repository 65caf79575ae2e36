/** Draws all lines, looks how tall they came out, and shows them page by page; again where lines or screen change. */

import type { RefObject } from "preact";
import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import { PAGE_MS, pagesOf } from "./pages";

export interface Pages {
  /** The places of the lines to draw; null while all are drawn, to be measured before anybody sees them. */
  shown: readonly number[] | null;
  at: number;
  of: number;
}

/** `lines`: what stands in them, as text: another text is measured again. */
export function usePages(box: RefObject<HTMLElement | null>, lines: string, paused: boolean): Pages {
  const size = useSize(box);
  const [laid, setLaid] = useState<{ key: string; pages: number[][] } | null>(null);
  const [turn, setTurn] = useState(0);
  const key = `${size} ${lines}`;
  useLayoutEffect(() => {
    if (box.current && laid?.key !== key) setLaid({ key, pages: pagesOf(heightsIn(box.current), roomIn(box.current)) });
  }, [key]);
  const pages = laid?.key === key ? laid.pages : null;
  const of = pages?.length ?? 1;
  useEffect(() => {
    if (paused || of < 2) return;
    const timer = setInterval(() => setTurn((before) => before + 1), PAGE_MS);
    return () => clearInterval(timer);
  }, [paused, of]);
  const at = turn % Math.max(of, 1);
  return { shown: pages?.[at] ?? null, at, of };
}

function useSize(box: RefObject<HTMLElement | null>): string {
  const [size, setSize] = useState("");
  useEffect(() => {
    const watcher = new ResizeObserver(([seen]) => {
      const { width = 0, height = 0 } = seen?.contentRect ?? {};
      setSize(`${width} ${height} ${innerWidth} ${innerHeight}`);
    });
    if (box.current) watcher.observe(box.current);
    return () => watcher.disconnect();
  }, []);
  return size;
}

function roomIn(box: HTMLElement): number {
  return box.clientHeight - Number.parseFloat(getComputedStyle(box).paddingBottom);
}

const heightsIn = (box: HTMLElement): number[] =>
  [...box.querySelectorAll("li")].map((row) => row.getBoundingClientRect().height);
