/** How far each tyre went: the stage km between the readings that say which number stood at which corner. Pure. */

import type { Reading } from "./readings";
import { CORNERS, type Corner } from "./walk_list";

export interface TyreKm {
  /** As it is written on the tyre. */
  tyre: string;
  /** Where it stands now; null for one that was taken off. */
  place: Corner | null;
  km: number;
}

/**
 * Return every tyre that was read, those on the car first, corner by corner, then the others by number.
 *
 * A number stands at a corner until the next one is read there. `km_at`: the stage km that the car had done at a
 * reading; `km_now`: by now.
 */
export function tyreKm(readings: Reading[], km_at: (one: Reading) => number, km_now: number): TyreKm[] {
  const tyres = new Map<string, TyreKm>();
  for (const place of CORNERS) {
    const here = readings.filter((one) => one.reading === "tyre number" && one.place === place);
    here.forEach((one, at) => {
      const next = here[at + 1];
      const tyre = String(one.value).trim();
      const known = tyres.get(tyre) ?? { tyre, place: null, km: 0 };
      known.km += Math.max(0, (next ? km_at(next) : km_now) - km_at(one));
      if (!next) known.place = place;
      tyres.set(tyre, known);
    });
  }
  const on = (one: TyreKm) => (one.place === null ? CORNERS.length : CORNERS.indexOf(one.place));
  return [...tyres.values()].sort((a, b) => on(a) - on(b) || (a.tyre < b.tyre ? -1 : 1));
}
