/** Lets a screen come in two pieces: what a thumb looks for first, and the rest a frame later, so that no tap waits long. */

import { useEffect, useState } from "preact/hooks";

/** False while a component is drawn for the first time, true from the frame after it. */
export function useNextFrame(): boolean {
  const [is_later, setLater] = useState(false);
  useEffect(() => {
    // A hidden page has no frames: a timer comes there, too.
    const timer = setTimeout(() => setLater(true), 0);
    return () => clearTimeout(timer);
  }, []);
  return is_later;
}
