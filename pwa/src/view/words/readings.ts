/** Words of the readings: figures of a service, wear, what runs out. */

import { worded } from "../../kit/language";
import type { DatedState } from "../../report/dated";
import type { ReadingName } from "../../report/readings";
import type { WearingName } from "../../report/wear";
import { corner, level } from "./walk";

const reading: Record<ReadingName, string> = {
  "brake reservoir": "Brake reservoir",
  "clutch reservoir": "Clutch reservoir",
  "tyre pressure": "Tyre pressure",
  "brake pad": "Brake pads",
  tread: "Tyre tread",
  "tyre number": "Tyre number",
  "damper clicks": "Damper clicks",
  "ride height": "Ride height",
  "front toe": "Front toe, out is plus",
  "rear toe": "Rear toe, out is plus",
  "peak water temperature": "Peak water temperature",
  "peak oil temperature": "Peak oil temperature",
  "lowest oil pressure": "Lowest oil pressure",
  "oil added": "Oil added",
  "coolant added": "Coolant added",
  "brake fluid added": "Brake fluid added",
  odometer: "Odometer",
};

export const readings = worded("readings", {
  link: "Readings",
  title: "Readings",
  at: (service: string) => `Service ${service}`,
  between: "Not in a service",
  how: "What you touch is saved, nothing else. Each starts from the last one.",
  reading,
  corner,
  level,
  last: (value: string, when: string, by: string) => `last ${value}, ${when}, ${by}`,
  lastShort: (value: string) => `last ${value}`,
  never: "not read yet",
  asLast: (what: string) => `${what}: all as last time`,
  asLastShort: "All as last time",
  readFirst: "Read the level before you top it up.",
  fell: "The brake reservoir fell. Saving also reports the brakes for inspection: the car is on hold until an inspector has.",
  fellLow:
    "The brake reservoir is low. Saving also reports the brakes for inspection: the car is on hold until an inspector has.",
  fellNote: (before: string, now: string, where: string) =>
    `Brake reservoir fell from ${before} to ${now}, read ${where}. Look for a leak; worn pads lower it, too.`,
  lowNote: (now: string, where: string) =>
    `Brake reservoir found ${now}, read ${where}; no reading before. Look for a leak; worn pads lower it, too.`,
  inService: (service: string) => `at service ${service}`,
  outside: "outside a service",
  first: "Brakes and tyres",
  suspension: "After work on the suspension",
  askedAfter: (corner: string, part: string, what: string[]) => `${corner}, ${part}: ${what.join("; ")}`,
  engine: "Engine",
  more: "Suspension, fluids added, tyre numbers, odometer, clutch",
  touched: (n: number) => (n === 1 ? "Save 1 reading" : `Save ${n} readings`),
  nothing: "Touch what you read, then save.",
  saving: "Keeping it …",
  undo: "Undo the last tap",
  saved: (n: number) => (n === 1 ? "1 reading saved." : `${n} readings saved.`),
  wrong: "A wrong one is put right by reading it again: the last one counts.",
  seeQueue: "See the queue",

  wear: "Wear",
  tyres: "Tyres by number",
  tyre_head: "Number",
  tyre_km_head: "Stage km",
  tyreOff: "taken off",
  wearNone: "Needs two readings of pads or tread with stages between them.",
  wearOf: { "brake pad": "Brake pads", tread: "Tyre tread" } satisfies Record<WearingName, string>,
  wearName: (what: string) => `Wear of ${what.toLowerCase()}`,
  corner_head: "Corner",
  now_head: "Now, mm",
  rate_head: "mm in 100 stage km",
  left_head: "Stage km left",
  limit: (mm: number) => `Change at ${mm.toFixed(1)} mm: common practice, no source. The team's own limit comes first.`,
  km: (n: number) => n.toFixed(0),
  unknown: "–",
  below: "at the limit",
  jump: (where: string, what: string, mm: number, km: number) =>
    `${where}, ${what.toLowerCase()}: ${mm.toFixed(1)} mm in ${km.toFixed(0)} stage km. Looks like damage, not wear.`,
  jumpLog: (where: string, what: string) => `${where}, ${what.toLowerCase()}: log it`,
  jumpNote: (what: string, mm: number, km: number) =>
    `${what}: ${mm.toFixed(1)} mm in ${km.toFixed(0)} stage km, much more than usual.`,

  dated: "Expiry dates and seals",
  dates: {
    expired: (day: string) => `Ran out on ${day}. Replace it, or show it to the officials before the car goes.`,
    during: (day: string) => `Expires on ${day}, before the event ends.`,
    soon: (day: string) => `Expires on ${day}, within 30 days.`,
    later: (day: string) => `Until ${day}.`,
    none: () => "",
  } satisfies Record<DatedState, (day: string) => string>,
  seal: (seal: string) => `Seal ${seal}: call the scrutineer before it is opened.`,
});
