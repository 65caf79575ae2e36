/** What is asked of the queue's worker, and what comes back. */

import type { Entry, EventSetup, Queue } from "./api";

/**
 * entries: of the event, all cars, in any order, doubled or not; set_aside: what a manager has still to look at, which
 * no phone can know by itself: the review reasons that the server gave last.
 */
export interface QueueAsk {
  setup: EventSetup;
  entries: Entry[];
  car: string;
  set_aside: string[];
  /** How many more there are than `set_aside` names. */
  set_aside_more?: number;
}

/** `failed` says why the queue could not be worked out here. */
export type QueueReply = { queue: Queue } | { failed: string };
