/**
 * How far into a stage a position is, by the places of the road book. Pure.
 *
 * Between two places the road is taken as straight, as it is not: the answer says by how much it may be out. Metres per
 * degree follow the ellipsoid of WGS 84 (NIMA TR8350.2: a = 6,378,137 m, 1/f = 298.257223563), whose radii of curvature
 * are M = a (1 − e²) / (1 − e² sin² φ)^1.5 along the meridian and N = a / √(1 − e² sin² φ) across it.
 */

import type { Position, RoadPlace } from "../kit/api";

/** `about_m`: by how much the place may be out, the phone's own error and the way off the straight line together. */
export interface OnStage {
  km: number;
  about_m: number;
}

/** Further than this from every straight line between places, beside the phone's own error, is not on the stage. */
const OFF_THE_STAGE_M = 2_000;

const A_M = 6_378_137;
const E2 = (2 - 1 / 298.257223563) / 298.257223563;
const RAD = Math.PI / 180;

type Point = { lat: number; lon: number };

/** Return how far east and north `to` is from `from`, in metres; good to some metres within 50 km. */
export function offset(from: Point, to: Point): { east_m: number; north_m: number } {
  const phi = ((from.lat + to.lat) / 2) * RAD;
  const w = 1 - E2 * Math.sin(phi) ** 2;
  const [meridian_m, across_m] = [(A_M * (1 - E2)) / w ** 1.5, A_M / Math.sqrt(w)];
  const lon = ((to.lon - from.lon + 540) % 360) - 180;
  return { east_m: lon * RAD * across_m * Math.cos(phi), north_m: (to.lat - from.lat) * RAD * meridian_m };
}

/** Return where on its stage a position is, or null: fewer than two places are known, or it is not near the stage. */
export function onStage(position: Position, stage: string | null, places: RoadPlace[] | undefined): OnStage | null {
  // A set-up that an older server gave, and this phone still holds, lists none.
  const own = (places ?? []).filter((one) => one.stage === stage).sort((a, b) => a.km - b.km);
  const legs = own.slice(1).map((to, index) => onLeg(position, own[index] as RoadPlace, to));
  const [nearest] = legs.sort((a, b) => a.off_m - b.off_m);
  const error_m = position.accuracy_m ?? 0;
  if (!nearest || nearest.off_m > OFF_THE_STAGE_M + error_m) return null;
  return { km: Math.round(nearest.km * 10) / 10, about_m: Math.round(nearest.off_m + error_m) };
}

function onLeg(at: Point, from: RoadPlace, to: RoadPlace): { km: number; off_m: number } {
  const [leg, here] = [offset(from, to), offset(from, at)];
  const length2 = leg.east_m ** 2 + leg.north_m ** 2;
  const along = length2 === 0 ? 0 : (leg.east_m * here.east_m + leg.north_m * here.north_m) / length2;
  const share = Math.min(1, Math.max(0, along));
  const off_m = Math.hypot(here.east_m - share * leg.east_m, here.north_m - share * leg.north_m);
  return { km: from.km + share * (to.km - from.km), off_m };
}
