/** How many stage km a car has done, from what was said of it. */

import type { Entry, EventSetup } from "../kit/api";
import { bodyOf } from "./body";
import { byTime } from "./order";
import { headsIn } from "./heads";
import { withoutVoided } from "./voided";

/**
 * Return the timed km that a car had done when an entry was made: those of the stages up to the last one that was
 * reported, seen, or lies before a service entered or left by then.
 *
 * The road between stages and a shakedown count for nothing: they wear little, and nobody writes them down.
 */
export function stageKm(entries: Entry[], setup: EventSetup, until: Entry): number {
  const ofCar = entries.filter((one) => one.car === until.car && byTime(one, until) <= 0);
  const valid = withoutVoided(ofCar, setup);
  const last = Math.max(-1, ...stagesDone(valid, setup).map((stage) => placeOf(setup, stage)));
  return setup.stages.slice(0, last + 1).reduce((sum, one) => sum + one.km, 0);
}

function stagesDone(valid: Entry[], setup: EventSetup): string[] {
  const reported = headsIn(valid).flatMap((head) => {
    const { where, stage } = bodyOf(head);
    return where === "stage" && stage !== null ? [stage] : [];
  });
  return [...reported, ...valid.flatMap((entry) => namedBy(entry, setup))];
}

function namedBy(entry: Entry, setup: EventSetup): string[] {
  if (entry.kind === "stage.nothing_seen") return [entry.data.stage];
  if (entry.kind !== "service.entered" && entry.kind !== "service.left") return [];
  const after = setup.services.find((one) => one.service === entry.data.service)?.after;
  return after ? [after] : [];
}

const placeOf = (setup: EventSetup, stage: string) => setup.stages.findIndex((one) => one.stage === stage);
