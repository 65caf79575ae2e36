/** What a new report starts with, so that the right stage stands there without a tap. */

import type { Entry, EventSetup, ReportBody } from "../kit/api";
import { bodyOf, EMPTY_BODY } from "./body";
import { ofKind } from "./lists";
import { timeOf } from "./order";
import { currentService } from "./service";
import { lastStarted } from "./started";
import { headsIn } from "./heads";
import { countedOf } from "./counted";

/**
 * For so long after a stage was reported a further report is taken to be of the same stage: several hits are
 * written down at one stop. Common practice, no source: a stage with its road section takes longer.
 */
export const SAME_STOP_MS = 20 * 60_000;

/**
 * Return the body that a new report starts with.
 *
 * In service: `where` = service, and the stage before it. Else the stage that started last, where the itinerary says
 * when they start; else the one after the last that was reported or seen (the first stage if none, the last if all).
 * Never one before what was reported; within SAME_STOP_MS of its last report that same stage.
 */
export function prefill(entries: Entry[], car: string, setup: EventSetup | null, now_ms: number): ReportBody {
  const current = currentService(entries, car, setup);
  if (current) {
    const after = setup?.services.find((one) => one.service === current.service)?.after ?? null;
    return { ...EMPTY_BODY, where: "service", stage: after };
  }
  const stage = stageNow(entries, car, setup, now_ms);
  return { ...EMPTY_BODY, where: stage === null ? "unknown" : "stage", stage };
}

/** Return the stage that the car has most likely just done, or null without an itinerary. */
export function stageNow(entries: Entry[], car: string, setup: EventSetup | null, now_ms: number): string | null {
  const order = setup?.stages.map((one) => one.stage) ?? [];
  const counted = countedOf(entries, car, setup);
  const last = lastSeen(counted, order);
  const before_service = lastBeforeService(counted, order, setup);
  const started = lastStarted(counted, setup, now_ms);
  const at = (place: number) => order[Math.max(place, 0)] ?? order.at(-1) ?? null;
  if (!last || before_service > last.place) return at(Math.max(before_service + 1, started ?? -1));
  const same_stop = last.reported && Math.abs(now_ms - last.ms) < SAME_STOP_MS;
  if (same_stop) return at(last.place);
  return at(started === null ? last.place + 1 : Math.max(last.place, started));
}

/** What was last said of a stage of the itinerary. */
export interface Seen {
  entry: Entry;
  place: number;
  ms: number;
  reported: boolean;
}

/** Return what was said of the furthest stage, the last of it by clock; or null. */
export function lastSeen(counted: Entry[], order: string[]): Seen | null {
  const key = JSON.stringify(order);
  const known = lastsSeen.get(counted);
  if (known?.key === key) return known.last;
  const last = findLastSeen(counted, order);
  lastsSeen.set(counted, { key, last });
  return last;
}

// Asked several times while one screen is drawn.
const lastsSeen = new WeakMap<Entry[], { key: string; last: Seen | null }>();

function findLastSeen(counted: Entry[], order: string[]): Seen | null {
  let last: Seen | null = null;
  const see = (entry: Entry, stage: string | null, reported: boolean) => {
    const place = stage === null ? -1 : order.indexOf(stage);
    if (place < 0 || (last && place < last.place)) return;
    const ms = timeOf(entry);
    if (!last || place > last.place || ms >= last.ms) last = { entry, place, ms, reported };
  };
  for (const entry of ofKind(counted, "stage.nothing_seen")) see(entry, entry.data.stage, false);
  for (const head of headsIn(counted)) {
    const body = bodyOf(head);
    if (body.where !== "hand-over") see(head, body.stage, true);
  }
  return last;
}

/** Return the place of the last stage before a service entered or left, which says that it is done, reported or not; -1. */
export function lastBeforeService(counted: Entry[], order: string[], setup: EventSetup | null): number {
  const places = [...ofKind(counted, "service.entered"), ...ofKind(counted, "service.left")].map((entry) => {
    const after = setup?.services.find((one) => one.service === entry.data.service)?.after;
    return after ? order.indexOf(after) : -1;
  });
  return Math.max(-1, ...places);
}
