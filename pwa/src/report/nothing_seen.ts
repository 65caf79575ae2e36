/** Of which stage "nothing seen" may be said now, and of which it stands already. */

import type { Entry, EntryOf, EventSetup, Service } from "../kit/api";
import { msOf } from "../kit/time";
import { noWork } from "./controls";
import { lastBeforeService, lastSeen, SAME_STOP_MS, type Seen } from "./prefill";
import { currentService, officialOf } from "./service";
import { lastStarted } from "./started";
import { countedOf } from "./counted";

type NothingSeen = EntryOf<"stage.nothing_seen">;

/** At most one of the two is there. */
export interface NothingNow {
  /** The stage to ask about. */
  ask: string | null;
  /** What the crew said last, where that is that nothing was seen, and the car can hardly have driven on. */
  said: NothingSeen | null;
}

const NEITHER: NothingNow = { ask: null, said: null };

/**
 * Return what stands on the log.
 *
 * Asked about is the stage after the last one that was reported, seen, or lies before a service entered or left, once
 * its time has come: SAME_STOP_MS after the last word on the stage before it and after the real way out of the service
 * before it (by the itinerary, where nobody tapped), and on its day; and after its start, where the itinerary names that.
 * While the car stands in a service or a control it drives nothing.
 */
export function nothingNow(entries: Entry[], car: string, setup: EventSetup, now_ms: number): NothingNow {
  const valid = countedOf(entries, car, setup);
  const order = setup.stages.map((one) => one.stage);
  const last = lastSeen(valid, order);
  const place = Math.max(last?.place ?? -1, lastBeforeService(valid, order, setup)) + 1;
  const stage = order[place];
  const until_ms = Math.min(now_ms, inControlSince(valid, car, setup, nextAfter(place, setup), now_ms));
  const drives = !currentService(valid, car, setup) && until_ms >= outBefore(place, valid, setup);
  const started = lastStarted(valid, setup, now_ms) ?? place;
  if (stage !== undefined && drives && place <= started && !isFresh(last, until_ms)) return { ask: stage, said: null };
  return last?.entry.kind === "stage.nothing_seen" && last.place === place - 1
    ? { ask: null, said: last.entry }
    : NEITHER;
}

// Two phones' clocks differ: what is far ahead of this one was not said just now.
const isFresh = (last: Seen | null, now_ms: number) => last !== null && Math.abs(now_ms - last.ms) < SAME_STOP_MS;

// Who forgets the tap out of a control has driven on all the same: on the day after it, or when the next service is due.
function inControlSince(valid: Entry[], car: string, setup: EventSetup, next: Service | undefined, now_ms: number) {
  const control = noWork(valid, car, setup);
  if (!control?.open.some((one) => one.kind === "control.entered")) return Infinity;
  const over = [midnightOf(next?.arrive ?? null), instantOf(next?.arrive ?? null)].filter(
    (at) => at > control.since_ms,
  );
  return over.some((at) => at <= now_ms) ? Infinity : control.since_ms;
}

const placeOf = (service: Service, setup: EventSetup) => setup.stages.findIndex(({ stage }) => stage === service.after);

const nextAfter = (place: number, setup: EventSetup) => setup.services.find((one) => placeOf(one, setup) >= place);

/** Return the earliest instant at which a stage can have been driven, by the service and the day before it. */
function outBefore(place: number, valid: Entry[], setup: EventSetup): number {
  const before = setup.services.filter((one) => placeOf(one, setup) < place).at(-1);
  const next = nextAfter(place, setup);
  const out_ms = before ? outOf(before, valid) + SAME_STOP_MS : -Infinity;
  // Nothing says when a day's first stage starts; the night before it is not its time.
  return next && (!before || before.parc_ferme_after) ? Math.max(out_ms, midnightOf(next.arrive)) : out_ms;
}

function outOf(service: Service, valid: Entry[]): number {
  const tapped = (kind: "service.entered" | "service.left") =>
    valid.flatMap((one) => (one.kind === kind && one.data.service === service.service ? [officialOf(one)] : []));
  const left = tapped("service.left");
  if (left.length > 0) return Math.max(...left);
  const entered = tapped("service.entered");
  const in_ms = entered.length > 0 ? Math.max(...entered) : instantOf(service.arrive);
  return in_ms + service.minutes * 60_000;
}

const instantOf = (at: string | null) => (at === null ? null : msOf(at)) ?? -Infinity;

const midnightOf = (at: string | null) => instantOf(at?.replace(/T\d\d:\d\d(:\d\d(\.\d+)?)?/, "T00:00:00") ?? null);
