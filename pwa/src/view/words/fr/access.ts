/** Étapes d'accès du barème livré avec l'application ; une étape propre à l'équipe garde son nom. */

const STEPS: Record<string, string> = {
  "rinse-or-scrape": "rincer ou gratter",
  "car-on-stands": "voiture sur chandelles",
  "front-on-stands": "avant sur chandelles",
  "rear-on-stands": "arrière sur chandelles",
  "wheel-off": "roue déposée",
  "torque-on-ground": "serrage au couple au sol",
  "cool-down": "laisser refroidir",
  "arch-liner-out": "pare-boue déposé",
  "sump-guard-off": "ski moteur déposé",
  "floor-guards-off": "protections de plancher déposées",
  "tank-guard-off": "protection de réservoir déposée",
  "front-bumper-off": "pare-chocs avant déposé",
  "rear-bumper-off": "pare-chocs arrière déposé",
  "bonnet-up": "capot ouvert",
  "bonnet-off": "capot déposé",
  "boot-lid-off": "couvercle de coffre déposé",
  "boot-emptied": "coffre vidé",
  "air-box-out": "boîte à air déposée",
  "coolant-drained-and-filled": "liquide de refroidissement vidangé et refait",
  "gearbox-oil-drained-and-filled": "huile de boîte vidangée et refaite",
  "brakes-opened-and-bled": "freins ouverts et purgés",
  "battery-isolated": "batterie isolée",
  "fuel-made-safe": "carburant préparé pour l'intervention",
  "welding-place-made-safe": "poste de soudage préparé",
  "seat-out": "siège déposé",
  "dash-or-column-cover-off": "tableau de bord ou cache de colonne déposé",
  "padding-and-trim-off": "mousses et garnitures déposées",
  "official-called": "officiel appelé",
};

export const access = (step: string): string => STEPS[step] ?? step.replaceAll("-", " ");
