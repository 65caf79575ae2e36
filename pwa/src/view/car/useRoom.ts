/** What the screen gives the drawing: how far its outer zones may reach out, and how large the person has letters. */

import { useEffect, useState } from "preact/hooks";

/** A phone on its side, as on the dash; `log.css` has the same words. */
const LOW = "(orientation: landscape) and (max-height: 480px) and (min-width: 640px)";
/** Units of the drawing, on both sides, in what a low screen has room for. */
const REACH = 66;
const USUAL_PX = 16;
/** There the drawing is smaller than on an upright phone, and its letters must not be. */
const LOW_LETTERS = 1.15;
/** As large as a zone holds: "Front right corner" in three lines. */
const LARGEST = 1.75;

interface Room {
  /** A low screen: the drawing stands beside what it is for. */
  low: boolean;
  reach: number;
  /** How much larger than usual the letters in it are. */
  scale: number;
}

function room(): Room {
  const letters = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / USUAL_PX;
  const low = matchMedia(LOW).matches;
  const scale = Math.min(Math.max(letters, low ? LOW_LETTERS : 1), LARGEST);
  return { low, reach: low ? REACH : 0, scale };
}

export function useRoom(): Room {
  const [now, setNow] = useState(room);
  useEffect(() => {
    const see = () => setNow(room());
    see();
    addEventListener("resize", see);
    return () => removeEventListener("resize", see);
  }, []);
  return now;
}
