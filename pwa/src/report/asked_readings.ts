/** Readings that the work on a car asks for: damper clicks, ride height and toe after a strut, a damper or an arm. */

import type { Entry, EventSetup } from "../kit/api";
import { isKind } from "./local_entry";
import { byTime } from "./order";
import { lastReading, readingsOf, type ReadingName } from "./readings";
import { countedOf } from "./counted";
import { CORNERS, type Corner } from "./walk_list";

export const SUSPENSION = ["damper clicks", "ride height", "front toe", "rear toe"] as const satisfies ReadingName[];
type Suspension = (typeof SUSPENSION)[number];

/** A repair, and what is to be read after it. */
export interface AskedReadings {
  job: string;
  corner: Corner;
  component: string;
  readings: Suspension[];
}

type What = "clicks" | "height" | "toe";

/** What moves with a new part. Common practice, no source. */
const AFTER: ReadonlyMap<string, readonly What[]> = new Map<string, readonly What[]>([
  ["strut", ["clicks", "height", "toe"]],
  ["damper", ["clicks", "height"]],
  ["spring", ["height"]],
  ["top-mount", ["height", "toe"]],
  ["lower-arm", ["height", "toe"]],
  ["trailing-arm", ["height", "toe"]],
  ["upright", ["toe"]],
  ["arm-pick-up-points", ["toe"]],
  ["toe-link", ["toe"]],
  ["track-rod", ["toe"]],
  ["track-rod-end", ["toe"]],
  ["steering-arm", ["toe"]],
]);

const READ: Record<Exclude<What, "toe">, Suspension> = { clicks: "damper clicks", height: "ride height" };

/** Return what is to be read of a car, by the last repair of each part; what was read since is asked for no more. */
export function askedReadings(entries: Entry[], car: string, setup: EventSetup | null): AskedReadings[] {
  const ofCar = countedOf(entries, car, setup);
  const read = readingsOf(ofCar, car);
  const finished = ofCar.filter((entry) => isKind(entry, "job.finished")).sort(byTime);
  const last = new Map(finished.map((entry) => [entry.subject ?? "", entry]));
  return [...last].flatMap(([job, entry]) => {
    const [zone = "", component = ""] = job.split("/");
    const corner = CORNERS.find((one) => one === zone);
    if (!corner) return [];
    const isOpen = (reading: Suspension) => {
      const found = lastReading(read, reading, reading.endsWith("toe") ? null : corner);
      return !found || Date.parse(found.at) < Date.parse(entry.at);
    };
    const readings = (AFTER.get(component) ?? []).map((what) => readingOf(what, corner)).filter(isOpen);
    return readings.length > 0 ? [{ job, corner, component, readings }] : [];
  });
}

function readingOf(what: What, corner: Corner): Suspension {
  if (what === "toe") return corner.startsWith("front") ? "front toe" : "rear toe";
  return READ[what];
}
