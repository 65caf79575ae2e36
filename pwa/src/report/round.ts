/** A walk round the car: what is bad in each zone, kept together until it is saved as one report a zone. Pure. */

import type { CarMap, ComponentFinding, ReportBody } from "../kit/api";

/** What a walk round has found so far. `base`: stage and place of all its reports. */
export interface Round {
  base: ReportBody;
  /** Findings by zone; a zone that was looked at and has none stands with an empty list. */
  zones: Record<string, ComponentFinding[]>;
  /** What happened to the whole car, as codes of the car map's symptoms. */
  happened: string[];
}

/** What happens to a whole car: codes of the package's own map; a team's map may lack some. */
const HAPPENINGS = ["heavy-hit", "rolled", "hard-landing", "water-crossing"];

/** Return the happenings that this car map knows: each fills in what must be looked at, through the map's `checks`. */
export const happeningsOf = (map: CarMap): string[] => HAPPENINGS.filter((code) => code in map.symptoms);

/** Once round the car without turning back, then inside, then under it: zones of the package's own map. */
const ROUND = [
  ...["front-left", "front-end", "front-right", "right-side", "rear-right", "rear-end", "rear-left", "left-side"],
  ...["engine-bay", "cabin", "roof", "boot", "under-front", "under-middle", "under-rear"],
];

/** Return the zones as one walks round; what a team's map has besides comes last, in its own order. */
export function roundOf(map: CarMap): string[] {
  const there = ROUND.filter((zone) => zone in map.zones);
  return [...there, ...Object.keys(map.zones).filter((zone) => !ROUND.includes(zone))];
}

/** Return the zone after this one on the way round; null after the last. */
export function nextZone(map: CarMap, zone: string): string | null {
  const order = roundOf(map);
  return order[order.indexOf(zone) + 1] ?? null;
}

/** Return how many findings there are, what happened counted as one each. */
export function countOf({ zones, happened }: Round): number {
  return Object.values(zones).reduce((sum, found) => sum + found.length, happened.length);
}

/** Return the reports that the walk round makes: one for what happened, one for each zone with findings. */
export function reportsOfRound({ base, zones, happened }: Round): ReportBody[] {
  const whole = { ...base, zone: null, findings: [], symptoms: happened };
  const found = Object.entries(zones).filter(([, findings]) => findings.length > 0);
  return [
    ...(happened.length > 0 ? [whole] : []),
    ...found.map(([zone, findings]) => ({ ...base, zone, findings, symptoms: [] })),
  ];
}
