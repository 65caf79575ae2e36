/** Whether there is room for a list and what is chosen in it, side by side. */

import { useEffect, useState } from "preact/hooks";

/** As in ui/frame.css: 900 px at letters of the usual size. */
const WIDE = "(min-width: 56.25em)";

export function useWide(): boolean {
  const [wide, setWide] = useState(() => matchMedia(WIDE).matches);
  useEffect(() => {
    const media = matchMedia(WIDE);
    const see = () => setWide(media.matches);
    media.addEventListener("change", see);
    return () => media.removeEventListener("change", see);
  }, []);
  return wide;
}
