/** A new screen is told: title of the page, top of the screen, focus on it. */

import { useEffect, useRef } from "preact/hooks";
import type { Route } from "../../flow/model";
import { common } from "../words/common";

/**
 * The first screen after opening keeps the browser's own focus.
 * known: after joining, the event's set-up has come. hasCar: once the car is chosen, the screen takes the place of the question. joined: this screen takes the place of joining.
 */
export function useArrival({ screen, subject }: Route, hasCar: boolean, known: boolean, joined: boolean): void {
  const first = useRef(!joined);
  // `subject` too: another job on the same screen is an arrival.
  useEffect(() => {
    document.title = `${common.navLabel[screen] ?? common.navLabel.queue} · ${common.app}`;
    if (!first.current && (known || !joined)) {
      window.scrollTo(0, 0);
      document.getElementById("screen")?.focus({ preventScroll: true });
    }
    first.current = false;
  }, [screen, subject, hasCar, known]);
}
