/** From how far this board is read, as it was last chosen on this device. */

import { useState } from "preact/hooks";
import { DISTANCES, type Distance } from "./legible";

const KEY = "shuntbook.board";
const USUAL: Distance = "3";

export function useDistance(): [Distance, (distance: Distance) => void] {
  const [distance, setDistance] = useState<Distance>(kept);
  const choose = (next: Distance) => {
    setDistance(next);
    try {
      localStorage.setItem(KEY, next);
    } catch (error) {
      // A browser that keeps nothing for this page: chosen for as long as the board is open.
      if (!(error instanceof DOMException)) throw error;
    }
  };
  return [distance, choose];
}

function kept(): Distance {
  try {
    const held = localStorage.getItem(KEY);
    return DISTANCES.find((one) => one === held) ?? USUAL;
  } catch (error) {
    if (error instanceof DOMException) return USUAL;
    throw error;
  }
}
