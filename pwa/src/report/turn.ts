/** Between two turns of a school day: the six places that are looked at each time. Pure. */

import type { CarMap } from "../kit/api";

/** What is said of a place after a turn. */
export type Seen = "as-before" | "new";

/** Return the places to look at: the corners, the first end (ahead), the first part of the underside; common practice. */
export function placesOfTurn(map: CarMap): string[] {
  const zones = Object.entries(map.zones);
  const firstOf = (kind: string) => zones.filter(([, zone]) => zone.kind === kind).slice(0, 1);
  const corners = zones.filter(([, zone]) => zone.kind === "corner");
  return [...corners, ...firstOf("end"), ...firstOf("underside")].map(([name]) => name);
}

/** Return the first place where something is new, or null where all is as before. */
export function firstNew(places: string[], seen: Record<string, Seen>): string | null {
  return places.find((place) => seen[place] === "new") ?? null;
}
