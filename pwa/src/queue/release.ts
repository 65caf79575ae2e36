/** Hold or nothing open: what the log says about letting the car go. It never says more than the log holds. */

import type { Event } from "../fold/event";
import type { EntryOf, HoldReason, ReleasedUnseen } from "../kit/api";
import { byCodePoint, sortedSet } from "../kit/code_points";
import type { Job } from "./job";

/**
 * Return why the car is on hold, in the queue's order; an empty list means nothing open in the log.
 *
 * set_aside: ids (or digests) of entries that a manager has still to look at; they come first. more: how many more
 * there are, where they are too many to be named.
 */
export function holdReasons(jobs: Job[], set_aside: Iterable<string>, more = 0): HoldReason[] {
  const review = sortedSet(set_aside);
  const waiting: HoldReason = { job: null, needs: "review", entries: review, ...(more > 0 && { more }) };
  const reasons = review.length > 0 ? [waiting] : [];
  const held = jobs.filter((job) => job.safety_critical && job.inspection !== "passed");
  return [...reasons, ...held.map((job) => ({ job: job.job, needs: needs(job), entries: job.uncovered }))];
}

function needs(job: Job): HoldReason["needs"] {
  if (job.inspection === "failed") return "re-inspection";
  return job.group === "cage" ? "official" : "inspection";
}

/**
 * Return safety-critical findings from before a service that its release did not cover, nor any pass.
 *
 * releases: the car's `car.released` entries that stand. Sorted by (released, job).
 */
export function releasedUnseen(jobs: Job[], releases: EntryOf<"car.released">[], event: Event): ReleasedUnseen[] {
  const facts = [...releases].sort((a, b) => byCodePoint(a.id, b.id));
  const seen = new Set(facts.flatMap(({ data }) => data.covers ?? []));
  const critical = jobs.filter((job) => job.safety_critical).sort((a, b) => byCodePoint(a.job, b.job));
  const missed = critical.map((job) => ({ job: job.job, places: missedIn(job, seen, event) }));
  return facts.flatMap(({ id, data: { service } }) => {
    const last = lastStageBefore(service, event);
    const at_service = missed.map(({ job, places }) => ({ job, entries: upTo(last, places) }));
    const found = at_service.filter(({ entries }) => entries.length > 0);
    return found.map(({ job, entries }) => ({ released: id, service, job, entries }));
  });
}

interface Place {
  entry: string;
  place: number | null;
}

/** Return the job's findings that neither a pass nor a release covers, each with its stage's place. */
function missedIn(job: Job, seen: ReadonlySet<string>, event: Event): Place[] {
  const missed = job.unpassed.filter(({ covered_by }) => !covered_by.some((name) => seen.has(name)));
  return missed.map(({ entry, stage }) => ({ entry, place: event.stageIndex(stage) }));
}

function upTo(last: number, places: Place[]): string[] {
  return sortedSet(places.filter(({ place }) => place === null || place <= last).map(({ entry }) => entry));
}

/** Return the place of the stage that the service follows; -1 where it comes before all, or is not known. */
function lastStageBefore(service: string, event: Event): number {
  const known = event.serviceIndex(service);
  const after = known === null ? null : (event.services[known]?.after ?? null);
  return event.stageIndex(after) ?? -1;
}
