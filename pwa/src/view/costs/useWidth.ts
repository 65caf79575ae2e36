/** How wide an element is on the screen, kept up when it changes. */

import type { Ref } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";

/** A drawing in real pixels keeps its words readable on every phone; `first`: until the element was measured. */
export function useWidth<E extends Element>(first: number): [Ref<E>, number] {
  const element = useRef<E>(null);
  const [width, setWidth] = useState(first);
  useEffect(() => {
    if (!element.current) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry) setWidth(Math.floor(entry.contentRect.width));
    });
    observer.observe(element.current);
    return () => observer.disconnect();
  }, []);
  return [element, width];
}
