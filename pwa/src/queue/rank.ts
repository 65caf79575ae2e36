/** The order of the queue, and which parts run short in that order. */

import { byCodePoint } from "../kit/code_points";
import { Fraction, max } from "../kit/fraction";
import { type Estimate, nextInspection, worth } from "./estimate";
import { type Job, OVER } from "./job";
import type { Setup } from "./setup";

/** A job with its estimate, in the queue's order; `short` is what the van lacks of each part. */
export interface Ranked {
  job: Job;
  estimate: Estimate;
  short: ReadonlyMap<string, Fraction>;
}

/** Say whether nothing is left to repair. */
export const isOver = (job: Job) => OVER.has(job.state);

/** Say whether a job must be done: safety-critical and not passed, or the rate table's row says so. */
export function mustDo(job: Job, estimate: Estimate): boolean {
  if (job.safety_critical && job.inspection !== "passed") return true;
  return estimate.row_must_do && !isOver(job);
}

/**
 * Order jobs with their estimates, and hand out the van's stock in that order.
 *
 * Finished and accepted last; safety-critical first; then must-do; then value per mechanic-minute; then the key by
 * code point.
 */
export function rank(pairs: [Job, Estimate][], stock: ReadonlyMap<string, Fraction>): Ranked[] {
  const left = new Map(stock);
  const placed = pairs.map(([job, estimate]) => ({
    job,
    estimate,
    worth: worth(estimate),
    place: placeOf(job, estimate),
  }));
  placed.sort((a, b) => a.place - b.place || b.worth.compare(a.worth) || byCodePoint(a.job.job, b.job.job));
  return placed.map(({ job, estimate }) => ({ job, estimate, short: take(job, estimate, left) }));
}

/**
 * Return the queue with the rate table's shorter minutes for each further inspection in a zone of the car map.
 *
 * Of the jobs of a zone that are to be inspected and not over, the first in the order keeps its minutes. Inspections have
 * no value, so that the order stays as it is.
 */
export function withNextInspections(ranked: Ranked[], { car_map, rates }: Setup): Ranked[] {
  const inspected = new Set<string>();
  return ranked.map((item) => {
    const { zone, condition } = item.job;
    if (isOver(item.job) || condition !== "unknown" || !car_map.zones.has(zone)) return item;
    const further = inspected.has(zone) ? nextInspection(item.estimate.access, rates) : null;
    inspected.add(zone);
    return further ? { ...item, estimate: further } : item;
  });
}

function placeOf(job: Job, estimate: Estimate): number {
  return (isOver(job) ? 4 : 0) + (job.safety_critical ? 0 : 2) + (mustDo(job, estimate) ? 0 : 1);
}

function take(job: Job, estimate: Estimate, left: Map<string, Fraction>): Map<string, Fraction> {
  const short = new Map<string, Fraction>();
  for (const [part, qty] of estimate.parts) {
    const have = left.get(part) ?? Fraction.ZERO;
    short.set(part, isOver(job) ? Fraction.ZERO : max(Fraction.ZERO, qty.minus(have)));
    if (!isOver(job)) left.set(part, max(Fraction.ZERO, have.minus(qty)));
  }
  return short;
}
