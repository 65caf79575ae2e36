/** Reads which queue is shown of a car, the server's or this phone's own, what of it is new, and what is to be worked out. */

import type { EventSetup } from "../kit/api";
import { freshJobs, type Looked } from "../report/fresh";
import { releaseShown } from "../report/release";
import { type LocalParts, type LocalQueue, localParts, shownQueue } from "../report/queue_source";
import { queueHere } from "../store/answers";
import type { Db } from "../store/db";
import { readLook, readMeta } from "../store/meta";
import type { LocalWanted } from "./local_queue";
import type { Place } from "./place";

/** While the server can be reached its own answer comes first, mostly well within this time. */
const PATIENCE_MS = 1_500;

interface CarPlace extends Place {
  setup: EventSetup;
  car: string;
}

/**
 * Return queue and release to show, what is new in it for a person, and what is to be worked out on this phone or null.
 * `own`: worked out last.
 */
export async function readShownQueue(db: Db, place: CarPlace, person: string, own: LocalQueue | null, now_ms: number) {
  const { setup, car, held: entries } = place;
  const server = await queueHere(db, setup.event, car);
  const unreachable = await readMeta(db, "unreachable");
  // A set-up kept by an older version of the app has no rate table; the next one heard has.
  const parts = setup.rate_table ? localParts({ car, queue: server, entries, rates: setup.rates, unreachable }) : null;
  const is_ours = own?.answer.event === setup.event && own.answer.car === car;
  const shown = shownQueue(server, parts && is_ours ? own : null);
  const own_shown = shown.queue_from === "phone" ? (shown.queue?.answer ?? null) : null;
  const looked = (await readLook(db, person, setup.event, car)) as Looked | null;
  return {
    ...shown,
    fresh_jobs: shown.queue ? freshJobs(shown.queue.answer, looked) : [],
    has_looked: looked !== null,
    release: releaseShown({ car, queue: server, own: own_shown, entries, setup, now_ms }),
    own_wanted: parts && wantedOf(place, parts, unreachable),
  };
}

function wantedOf({ setup, car, setup_record }: CarPlace, parts: LocalParts, unreachable: boolean): LocalWanted {
  const { entries, set_aside, set_aside_more, arrivals } = parts;
  return {
    key: JSON.stringify([
      setup.event,
      car,
      setup_record?.heard_at,
      arrivals,
      entries.length,
      set_aside,
      set_aside_more,
    ]),
    ask: { setup, entries, car, set_aside, set_aside_more },
    arrivals,
    patience_ms: unreachable ? 0 : PATIENCE_MS,
  };
}
