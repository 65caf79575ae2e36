/** The clock of all cars: it starts when the first can be worked on. Pure. */

import type { EventSetup } from "../../kit/api";
import type { HeldTeam } from "../../flow/model";
import { clockIn, msOf } from "../../kit/time";

/** Unix ms of the clock's zero. */
export const zeroOfAll = ({ plan }: HeldTeam): number => msOf(plan.starts_at) ?? 0;

/** A time on the clock of all: "09:31". */
export const clockOfAll = (held: HeldTeam, setup: EventSetup, s: number): string =>
  clockIn(setup.timezone, zeroOfAll(held) + s * 1000);
