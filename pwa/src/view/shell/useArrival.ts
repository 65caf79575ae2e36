/** A new screen is told: title of the page, top of the screen, focus on it. */

import { useEffect, useRef } from "preact/hooks";
import type { Route } from "../../flow/model";
import { common } from "../words/common";

/** The first screen after opening keeps the browser's own focus. */
export function useArrival({ screen, subject }: Route): void {
  const first = useRef(true);
  // `subject` too: another job on the same screen is an arrival.
  useEffect(() => {
    document.title = `${common.navLabel[screen] ?? common.navLabel.queue} · ${common.app}`;
    if (!first.current) {
      window.scrollTo(0, 0);
      document.getElementById("screen")?.focus({ preventScroll: true });
    }
    first.current = false;
  }, [screen, subject]);
}
