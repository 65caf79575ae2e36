/** What leaving a service at a minute costs, by the event's own rules. Pure. */

import type { EventSetup } from "../kit/api";

const DAY = 24 * 60;

/** Against the due minute, in minutes and in seconds of penalty; `is_out`: later than one control allows. */
export interface Leaving {
  late_min: number;
  early_min: number;
  penalty_s: number;
  is_out: boolean;
}

/**
 * Return what it costs to leave at a minute of the officials' clock, where another one is due; minutes of the day, 0–1439.
 *
 * Both are whole minutes, and the whole due minute is on time. What is nearer by going past midnight is meant so.
 */
export function leavingAt(minute: number, due: number, { regulations }: Pick<EventSetup, "regulations">): Leaving {
  const apart = ((((minute - due + DAY / 2) % DAY) + DAY) % DAY) - DAY / 2;
  const [late_min, early_min] = [Math.max(0, apart), Math.max(0, -apart)];
  const { late_penalty_s_per_minute, early_penalty_s_per_minute, late_limit_minutes } = regulations;
  const penalty_s = late_min * late_penalty_s_per_minute + early_min * early_penalty_s_per_minute;
  return { late_min, early_min, penalty_s, is_out: late_min > late_limit_minutes };
}
