/** Shows the page on the whole screen, and back. */

import { useEffect, useState } from "preact/hooks";

/** Return whether the page fills the screen and what changes that; null where the browser can't. */
export function useFullScreen(): { on: boolean; toggle: () => void } | null {
  const [on, setOn] = useState(document.fullscreenElement !== null);
  useEffect(() => {
    const look = () => setOn(document.fullscreenElement !== null);
    document.addEventListener("fullscreenchange", look);
    return () => document.removeEventListener("fullscreenchange", look);
  }, []);
  if (!document.fullscreenEnabled) return null;
  return { on, toggle: () => void (on ? document.exitFullscreen() : document.documentElement.requestFullscreen()) };
}
