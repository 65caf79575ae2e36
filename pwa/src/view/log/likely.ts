/** Which parts a hit usually damages, commonest first, and how: order and defaults of the chips. Common practice, no source. */

import { type CarMap, CONDITIONS, type Condition, type Direction } from "../../kit/api";
import type { EffectiveReport } from "../../report/effective";

const COMMONEST = [
  ...[
    "wheel",
    "tyre",
    "arch-liner",
    "mud-flap",
    "lower-arm",
    "strut",
    "damper",
    "track-rod-end",
    "track-rod",
    "toe-link",
  ],
  ...["driveshaft", "brake-hose", "hub-and-bearing", "trailing-arm"],
  ...["front-bumper", "headlamp", "extra-lamps-and-bracket", "windscreen", "grille-and-ducts", "front-panel"],
  ...["number-plate", "bonnet", "rear-bumper", "rear-lamps", "tailpipe", "boot-lid", "rear-screen", "rear-wing"],
  ...["door", "sill", "front-wing", "mirror", "side-glass", "quarter-panel", "roof-panel", "roof-vent"],
  ...["sump-guard", "floor-guards", "tank-guard", "silencer-and-hangers", "front-subframe", "engine-sump"],
  ...["radiator", "coolant-hoses", "charge-cooler-and-pipes", "air-box-and-intake", "fan-and-cowl"],
  ...["spare-wheel-and-strap", "fuel-tank", "seat", "harness", "intercom", "heater-and-demister"],
];

const USUALLY: Record<string, Condition> = {
  wheel: "bent",
  tyre: "flat",
  "arch-liner": "loose",
  "mud-flap": "missing",
  "front-bumper": "broken",
  "rear-bumper": "broken",
  headlamp: "broken",
  "extra-lamps-and-bracket": "broken",
  "rear-lamps": "broken",
  windscreen: "cracked",
  "rear-screen": "broken",
  "side-glass": "broken",
  mirror: "broken",
  "sump-guard": "bent",
  "floor-guards": "bent",
  "tank-guard": "bent",
  sill: "bent",
  door: "bent",
  "front-wing": "bent",
  "quarter-panel": "bent",
  radiator: "leaking",
  "coolant-hoses": "leaking",
  "silencer-and-hangers": "loose",
  "number-plate": "missing",
};

/** How many chips stand in sight; the rest is one tap away. */
export const IN_SIGHT = 6;

/** The zone's components: the commonest first, the others in the map's own order; always the same, since a glove learns places. */
export function componentsOf(map: CarMap, zone: string): string[] {
  const listed = map.zones[zone]?.components ?? [];
  const rank = (name: string) => {
    const place = COMMONEST.indexOf(name);
    return place < 0 ? COMMONEST.length : place;
  };
  return [...listed].sort((a, b) => rank(a) - rank(b));
}

/** What the car's last report found, of reports newest first: what a rough stage broke once it often breaks again. */
export function lastFound(reports: readonly EffectiveReport[]): string[] {
  const last = reports.find(
    ({ withdrawn, body }) => !withdrawn && body.where !== "hand-over" && body.findings.length > 0,
  );
  return last?.body.findings.map(({ component }) => component) ?? [];
}

/** All symptoms: those that make somebody look at the zone first, each part in the map's own order. */
export function symptomsOf(map: CarMap, zone: string | null): string[] {
  const isNear = (code: string) =>
    zone !== null && (map.symptoms[code]?.checks ?? []).some((check) => check.startsWith(`${zone}/`));
  const codes = Object.keys(map.symptoms);
  return [...codes.filter(isNear), ...codes.filter((code) => !isNear(code))];
}

/** The conditions offered for a component: its own list in its own order, `unknown` first. */
export function conditionChips(map: CarMap, component: string): Condition[] {
  const own = map.components[component]?.conditions ?? [];
  return own.length ? ["unknown", ...own.filter((one) => one !== "unknown")] : [...CONDITIONS];
}

/** What is usually wrong with it after a hit; `unknown` where a guess could mislead (brakes, steering, cage). */
export function usualCondition(map: CarMap, component: string): Condition {
  const usual = USUALLY[component] ?? "unknown";
  return conditionChips(map, component).includes(usual) ? usual : "unknown";
}

/** The same place on the other side of the car, or null where there is none. */
export function otherSide(map: CarMap, zone: string | null): string | null {
  if (zone === null) return null;
  const other = zone.includes("left") ? zone.replace("left", "right") : zone.replace("right", "left");
  return other !== zone && map.zones[other] ? other : null;
}

/** A hit from the mirrored direction: 2 o'clock for 10. */
export function mirrored(direction: Direction | null): Direction | null {
  if (direction === null || direction === "below" || direction === 12) return direction;
  return (12 - direction) as Direction;
}
