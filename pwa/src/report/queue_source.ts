/** Whose queue is shown: the server's answer where it is fresh, else what this phone works out of what it holds. */

import type { Entry, Queue } from "../kit/api";
import { idSet } from "./order";
import { WITHHELD_CAR } from "./withheld";
import type { Cached, LocalEntry } from "./local_entry";

/** What this phone worked out. `arrivals`: its count (`LocalEntry.arrival`) up to which entries are in it. */
export interface LocalQueue {
  answer: Queue;
  /** ISO time on this phone's clock. */
  worked_out_at: string;
  arrivals: number;
}

export interface QueueSourceInput {
  car: string;
  /** The server's last answer about the car. */
  queue: Cached<Queue> | null;
  /** Entries of the event, all cars. */
  entries: LocalEntry[];
  /** The version of the rate table held. */
  rates: string;
  unreachable: boolean;
}

/** So many of what holds a car are named in a queue, the first by id; the others are counted. */
const NAMED = 100;

/** What this phone has to work a queue out of. */
export interface LocalParts {
  entries: Entry[];
  set_aside: string[];
  set_aside_more: number;
  arrivals: number;
}

/**
 * Return what to work the queue out of here, or null where the server's answer is to be shown.
 *
 * That is so where it is fresh: the server can be reached, and no entry is here that the answer does not know. And
 * where this phone lacks entries that were in the answer, or holds none of the car: to work it out without them could
 * hide a job.
 */
export function localParts(input: QueueSourceInput): LocalParts | null {
  const counted = input.entries.filter((held) => held.problem === null);
  if (isFresh(input) || lacksSome(input, counted)) return null;
  return {
    entries: counted.map((held) => held.entry),
    ...setAside(input),
    arrivals: input.entries.reduce((last, held) => Math.max(last, held.arrival), input.queue?.arrivals ?? 0),
  };
}

/** Return the queue to show, and whose it is. One that is the same byte for byte is the server's. */
export function shownQueue(
  queue: Cached<Queue> | null,
  own: LocalQueue | null,
): { queue: Cached<Queue> | null; queue_from: "server" | "phone" } {
  const is_older = own !== null && queue !== null && own.arrivals < queue.arrivals;
  if (!own || is_older || own.answer.hash === queue?.answer.hash) return { queue, queue_from: "server" };
  const { answer, worked_out_at: heard_at, arrivals } = own;
  return { queue: { answer, heard_at, arrivals }, queue_from: "phone" };
}

// A queue that was never heard is on its way while the server can be reached.
function isFresh({ queue, entries, rates, unreachable }: QueueSourceInput): boolean {
  if (unreachable || !queue) return !unreachable;
  return queue.answer.rates === rates && entries.every((held) => held.arrival <= queue.arrivals);
}

function lacksSome({ queue, car }: QueueSourceInput, counted: LocalEntry[]): boolean {
  // What other cars took from the van is not known here.
  if (counted.some(({ entry }) => (entry.kind as string) === WITHHELD_CAR)) return true;
  const ofCar = counted.filter((held) => held.entry.car === car);
  if (!queue) return ofCar.length === 0;
  const known = ofCar.filter((held) => held.arrival <= queue.arrivals);
  const here = new Set(ofCar.map((held) => held.entry.id));
  const named = queue.answer.jobs.flatMap((job) => [...job.findings, ...job.uncovered]);
  return known.length < queue.answer.entries || named.some((id) => !here.has(id));
}

// What the server set aside no phone can know by itself: its last word stands, with what it refused of this car since,
// and with what was handed over and can't be believed here: it waits for the server's word.
function setAside({ queue, car, entries }: QueueSourceInput): Pick<LocalParts, "set_aside" | "set_aside_more"> {
  const reviews = queue?.answer.hold_reasons.filter((reason) => reason.needs === "review") ?? [];
  const asked = queue?.arrivals ?? -1;
  const refused = entries.filter((held) => held.problem !== null && held.entry.car === car && held.arrival > asked);
  const all = idSet([...reviews.flatMap((reason) => reason.entries), ...refused.map((held) => held.entry.id)]);
  const unnamed = reviews.reduce((sum, { more }) => sum + (more ?? 0), 0);
  return { set_aside: all.slice(0, NAMED), set_aside_more: unnamed + Math.max(0, all.length - NAMED) };
}
