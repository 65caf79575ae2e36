/** A new screen is told: title of the page, top of the screen, focus on it. */

import { useEffect, useRef } from "preact/hooks";
import type { Route } from "../../flow/model";
import { common } from "../words/common";
import { arrived } from "./trail";

/**
 * The first screen after opening keeps the browser's own focus; after joining, the screen takes the place of that page.
 * asks: the screen asks for the car, and its answer is an arrival; null while the event's set-up is still to come.
 * person: each has an element of their own, which has to take the focus from that of who was there before.
 */
export function useArrival({ screen, subject }: Route, asks: boolean | null, joined: boolean, person: string): void {
  const first = useRef(!joined);
  // `subject` too: another job on the same screen is an arrival.
  useEffect(() => {
    arrived(location.hash);
    document.title = `${common.navLabel[screen] ?? common.navLabel.queue} · ${common.app}`;
    if (!first.current && asks !== null) {
      window.scrollTo(0, 0);
      document.getElementById("screen")?.focus({ preventScroll: true });
    }
    first.current = false;
  }, [screen, subject, asks, person]);
}
