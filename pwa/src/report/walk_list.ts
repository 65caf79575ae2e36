/** What a hand-over walk goes round: the fixed views, the corners, the fluids and what usually lies in the boot. */

/**
 * The views of the car, in the order in which one walks: eight round it from the front, clockwise, then the rest.
 * Common practice, no source: a fixed list is what makes two walks comparable picture by picture.
 */
export const VIEWS = [
  "front",
  "front-right",
  "right-side",
  "rear-right",
  "rear",
  "rear-left",
  "left-side",
  "front-left",
  "roof",
  "arch-front-left",
  "arch-front-right",
  "arch-rear-right",
  "arch-rear-left",
  "under-front",
  "under-rear",
  "windscreen",
  "seats-and-harness",
  "boot-kit",
] as const;
export type View = (typeof VIEWS)[number];

/** Places of tread and pads. */
export const CORNERS = ["front-left", "front-right", "rear-left", "rear-right"] as const;
export type Corner = (typeof CORNERS)[number];

/** Reservoirs that are looked at on a walk. */
export const FLUIDS = [
  "engine-oil",
  "coolant",
  "brake-fluid",
  "clutch-fluid",
  "power-steering",
  "screen-wash",
] as const;
export type Fluid = (typeof FLUIDS)[number];

/** Emptiest last. */
export const LEVELS = ["full", "between", "low", "empty"] as const;
export type Level = (typeof LEVELS)[number];

/** What is usually aboard, in words; the people on the walk change the list. Common practice, no source. */
export const USUAL_KIT = [
  "Spare wheel and strap",
  "Jack and wheel brace",
  "Warning triangles",
  "First-aid kit",
  "OK/SOS sign",
  "Hand extinguisher",
  "Belt cutters",
  "Tow rope",
  "Tool roll",
  "Engine oil, 1 l",
  "Intercom",
  "Keys",
  "Papers of the car",
] as const;

/** An entry has at most 16 KiB: a walk with so many marks and items, each as long as may be, stays below it. */
export const MOST_MARKS = 80;
export const MOST_KIT = 40;
export const LONGEST_ITEM = 60;
export const LONGEST_NOTE = 1000;
export const LONGEST_REASON = 80;
export const LONGEST_NAME = 80;
