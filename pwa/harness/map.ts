/** An invented car map, full enough to judge the screens by. */

import type { CarMap, Component, Zone } from "../src/kit/api";

const corner = (label: string, front: boolean): Zone => ({
  label,
  kind: "corner",
  people: 2,
  components: [
    ...["wheel", "tyre", "studs-and-nuts", "hub-and-bearing", "upright", "lower-arm", "strut", "spring", "top-mount"],
    ...["driveshaft", "brake-disc", "brake-caliper", "brake-pads", "brake-hose", "arch-liner", "mud-flap"],
    ...(front ? ["track-rod", "track-rod-end", "steering-arm"] : ["toe-link", "trailing-arm"]),
  ],
});

const zone = (label: string, kind: Zone["kind"], people: number, components: string[]): Zone => ({
  label,
  kind,
  people,
  components,
});

const GROUPS: Record<string, string> = {
  "brake-disc": "brake",
  "brake-caliper": "brake",
  "brake-pads": "brake",
  "brake-hose": "brake",
  "master-cylinder": "brake",
  "brake-pipes-underfloor": "brake",
  "track-rod": "steering",
  "track-rod-end": "steering",
  "steering-arm": "steering",
  "steering-rack": "steering",
  "toe-link": "steering",
  "front-subframe": "steering",
  "hub-and-bearing": "wheel-hold",
  "lower-arm": "wheel-hold",
  "main-hoop": "cage",
  "door-bars": "cage",
  "front-legs": "cage",
  harness: "restraint",
  "fuel-tank": "fuel",
  "fuel-pipes-underfloor": "fuel",
};

const zones: Record<string, Zone> = {
  "front-left": corner("Front left", true),
  "front-right": corner("Front right", true),
  "rear-left": corner("Rear left", false),
  "rear-right": corner("Rear right", false),
  "front-end": zone("Front end", "end", 2, [
    "front-bumper",
    "grille-and-ducts",
    "headlamp",
    "bonnet",
    "windscreen",
    "front-tow-eye",
    "number-plate",
  ]),
  "rear-end": zone("Rear end", "end", 2, ["rear-bumper", "boot-lid", "rear-lamps", "tailpipe", "rear-wing"]),
  "left-side": zone("Left side", "side", 2, ["front-wing", "door", "mirror", "side-glass", "sill", "jacking-point"]),
  "right-side": zone("Right side", "side", 2, ["front-wing", "door", "mirror", "side-glass", "sill", "jacking-point"]),
  roof: zone("Roof", "roof", 1, ["roof-panel", "roof-vent", "aerial-and-tracker"]),
  "under-front": zone("Underside front", "underside", 1, [
    "sump-guard",
    "front-subframe",
    "engine-sump",
    "gearbox-case",
  ]),
  "under-middle": zone("Underside middle", "underside", 1, [
    "brake-pipes-underfloor",
    "fuel-pipes-underfloor",
    "floor-guards",
    "silencer-and-hangers",
  ]),
  "under-rear": zone("Underside rear", "underside", 1, ["rear-subframe-or-beam", "tank-guard"]),
  "engine-bay": zone("Engine bay", "engine", 2, [
    "radiator",
    "coolant-hoses",
    "fan-and-cowl",
    "steering-rack",
    "turbo-and-manifold",
  ]),
  cabin: zone("Cabin", "cabin", 1, [
    "main-hoop",
    "front-legs",
    "door-bars",
    "seat",
    "harness",
    "master-cylinder",
    "intercom",
  ]),
  boot: zone("Boot", "boot", 1, ["fuel-tank", "spare-wheel-and-strap", "jack-and-brace"]),
  trailer: zone("Trailer", "side", 1, ["ramp"]),
};

const label = (name: string) => name.charAt(0).toUpperCase() + name.slice(1).replaceAll("-", " ");
const names = [...new Set(Object.values(zones).flatMap((one) => one.components))];
const OWN: Record<string, Component["conditions"]> = {
  "brake-hose": ["marked", "loose", "cracked", "leaking", "broken"],
  tyre: ["marked", "worn", "flat", "broken", "missing"],
  "track-rod-end": ["bent", "loose", "broken"],
};

const brakeCheck = ["front-left/brake-hose", "front-right/brake-hose", "rear-left/brake-hose", "rear-right/brake-hose"];

export const car_map: CarMap = {
  zones,
  components: Object.fromEntries(
    names.map((name) => [
      name,
      {
        label: label(name),
        group: GROUPS[name] ?? null,
        conditions: OWN[name] ?? [],
        sealed: name === "turbo-and-manifold",
      },
    ]),
  ),
  symptoms: {
    "long-pedal": { label: "Brake pedal long", checks: [...brakeCheck, "cabin/master-cylinder"], stop: "" },
    "pedal-sinks": {
      label: "Brake pedal sinks",
      checks: [...brakeCheck, "cabin/master-cylinder"],
      stop: "Stop. One brake circuit may be lost.",
    },
    "pulls-straight": {
      label: "Pulls to one side",
      checks: ["front-left/track-rod", "front-right/track-rod"],
      stop: "",
    },
    "steering-play": {
      label: "Play in the steering",
      checks: ["front-left/track-rod-end", "engine-bay/steering-rack"],
      stop: "Stop and look.",
    },
    "vibration-speed": { label: "Shakes with speed", checks: ["front-left/wheel", "front-right/wheel"], stop: "" },
    "temp-high": { label: "Water hot", checks: ["engine-bay/radiator", "engine-bay/fan-and-cowl"], stop: "" },
    "fuel-smell": {
      label: "Petrol smell",
      checks: ["boot/fuel-tank", "under-middle/fuel-pipes-underfloor"],
      stop: "No ignition, everybody out first.",
    },
    "exhaust-loud": { label: "Suddenly loud", checks: ["under-middle/silencer-and-hangers"], stop: "" },
    "hard-landing": {
      label: "Hard landing",
      checks: ["under-front/sump-guard", "under-front/front-subframe"],
      stop: "",
    },
    rolled: { label: "Rolled", checks: ["cabin/main-hoop", "cabin/front-legs", "cabin/door-bars"], stop: "" },
  },
  knock_on: [
    {
      component: "wheel",
      conditions: ["bent", "broken"],
      same_zone: ["hub-and-bearing", "lower-arm", "track-rod-end", "brake-hose"],
      also: ["under-front/front-subframe"],
    },
  ],
  fixed: {},
  safety_groups: ["wheel-hold", "restraint", "fuel", "fire", "throttle"],
};
