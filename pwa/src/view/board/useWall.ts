/** What all boards on one wall share: how far off they are read, and whether their pages stand still. */

import { useState } from "preact/hooks";
import type { Distance } from "./legible";
import { useDistance } from "./useDistance";

export interface Wall {
  distance: Distance;
  choose: (distance: Distance) => void;
  paused: boolean;
  toggle: () => void;
  several: boolean;
  /** There is room for the clock beside the lines, and for reports that are not new. */
  roomy: boolean;
}

export function useWall(several: boolean): Wall {
  const [distance, choose] = useDistance();
  const [paused, setPaused] = useState(false);
  const toggle = () => setPaused((before) => !before);
  return { distance, choose, paused, toggle, several, roomy: distance !== "5" && !several };
}
