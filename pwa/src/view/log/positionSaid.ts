/** A position in words. Pure. */

import type { Position } from "../../kit/api";
import { place as words } from "../words/place";

/** "43.07900, -19.17600 (± 12 m)". */
export function positionSaid({ lat, lon, accuracy_m }: Position): string {
  return words.at(lat.toFixed(5), lon.toFixed(5), words.metres(accuracy_m ?? 0));
}
