/** What a new report starts with, so that the right stage stands there without a tap. */

import type { Entry, EventSetup, ReportBody } from "../kit/api";
import { type Change, keptUp } from "../kit/growing";
import { remembered } from "../kit/remembered";
import { bodyOf, EMPTY_BODY } from "./body";
import { isSigned, ofKind } from "./lists";
import { isKind } from "./local_entry";
import { timeOf } from "./order";
import { currentService } from "./service";
import { lastStarted } from "./started";
import { headsIn } from "./heads";
import { countedOf } from "./counted";
import type { Version } from "./versions";

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
export const lastSeen = (counted: Entry[], order: string[]): Seen | null => seenIn(JSON.stringify(order))(counted).last;

/** Of the entries that count of a car, brought forward by what came. `named`: the stages in their order, as JSON. */
const seenIn = remembered((named: string) => {
  const order = JSON.parse(named) as string[];
  return keptUp<Entry, { last: Seen | null }>(
    (counted) => ({ last: findLastSeen(counted, order) }),
    ({ last }, changes, counted) => {
      let now_last = last;
      for (const change of changes) {
        const said = isSigned(change) ? null : saidBy(change, counted, order);
        if (said === "all") return null;
        if (now_last && change.was === now_last.entry) now_last = { ...now_last, entry: change.now as Entry };
        // Of two at the same instant the one that comes later in the log counts, which all of it tells.
        if (said && said.place === now_last?.place && said.ms === now_last.ms) return null;
        if (said && isLater(said, now_last)) now_last = said;
      }
      return { last: now_last };
    },
  );
});

/** Return what a new entry says of a stage, null for nothing, "all" where all has to be gone through. */
function saidBy({ was, now }: Change<Entry>, counted: Entry[], order: string[]): Seen | null | "all" {
  if (was || !now || now.kind === "report.amended" || now.kind === "report.withdrawn") return "all";
  if (isKind(now, "stage.nothing_seen")) return seenAt(now, now.data.stage, false, order);
  if (!isKind(now, "report.filed")) return null;
  return headsIn(counted).includes(now) ? ofHead(now, order) : "all";
}

function findLastSeen(counted: Entry[], order: string[]): Seen | null {
  const nothing = ofKind(counted, "stage.nothing_seen").map((one) => seenAt(one, one.data.stage, false, order));
  const heads = headsIn(counted).map((head) => ofHead(head, order));
  let last: Seen | null = null;
  for (const said of [...nothing, ...heads]) if (said && isLater(said, last)) last = said;
  return last;
}

const isLater = ({ place, ms }: Seen, last: Seen | null) =>
  !last || place > last.place || (place === last.place && ms >= last.ms);

function ofHead(head: Version, order: string[]): Seen | null {
  const body = bodyOf(head);
  return body.where === "hand-over" ? null : seenAt(head, body.stage, true, order);
}

function seenAt(entry: Entry, stage: string | null, reported: boolean, order: string[]): Seen | null {
  const place = stage === null ? -1 : order.indexOf(stage);
  return place < 0 ? null : { entry, place, ms: timeOf(entry), reported };
}

/** Return the place of the last stage before a service entered or left, which says that it is done, reported or not; -1. */
export function lastBeforeService(counted: Entry[], order: string[], setup: EventSetup | null): number {
  const places = [...ofKind(counted, "service.entered"), ...ofKind(counted, "service.left")].map((entry) => {
    const after = setup?.services.find((one) => one.service === entry.data.service)?.after;
    return after ? order.indexOf(after) : -1;
  });
  return Math.max(-1, ...places);
}
