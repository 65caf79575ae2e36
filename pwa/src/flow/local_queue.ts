/** Keeps this phone's own queue worked out, in a worker, while the server's answer is not fresh. */

import type { QueueAsk, QueueReply } from "../kit/queue_ask";
import type { LocalQueue } from "../report/queue_source";
import workerUrl from "../worker/queue?worker&url";
import { askWorker } from "./worker";

/** What is to be worked out. `key` says what of: as long as it stays the same, so does the answer. */
export interface LocalWanted {
  key: string;
  ask: QueueAsk;
  arrivals: number;
  /** How long to wait before: the server's own answer may come first. */
  patience_ms: number;
}

export interface LocalQueueKeeper {
  /** See to it that what is wanted is worked out; null where nothing is. */
  follow(wanted: LocalWanted | null): void;
}

/** Work a queue out in its worker. */
export function calculateQueue(ask: QueueAsk): Promise<QueueReply> {
  return askWorker<QueueAsk, QueueReply>(workerUrl, ask, { failed: "the worker did not start" });
}

/** Make the keeper: one work at a time, and of what was wanted meanwhile only the last. */
export function openLocalQueue(
  workOut: (ask: QueueAsk) => Promise<QueueReply>,
  now: () => number,
  onNew: (own: LocalQueue) => void,
): LocalQueueKeeper {
  let latest: LocalWanted | null = null;
  let begun: string | null = null;
  let busy = false;
  let timer: ReturnType<typeof setTimeout> | null = null;

  function follow(wanted: LocalWanted | null): void {
    latest = wanted;
    if (busy || !wanted || wanted.key === begun) return;
    if (wanted.patience_ms === 0) start();
    else timer ??= setTimeout(start, wanted.patience_ms);
  }

  function start(): void {
    if (timer) clearTimeout(timer);
    timer = null;
    if (!busy && latest && latest.key !== begun) void run(latest);
  }

  async function run(wanted: LocalWanted): Promise<void> {
    busy = true;
    begun = wanted.key;
    const reply = await workOut(wanted.ask);
    busy = false;
    // A queue that can't be worked out here is no news to anybody: the server's last answer stays on the screen.
    if ("queue" in reply) onNew(ownOf(reply.queue, wanted, now()));
    else console.warn(`The queue was not worked out on this phone: ${reply.failed}`);
    follow(latest);
  }

  return { follow };
}

function ownOf(answer: LocalQueue["answer"], { arrivals }: LocalWanted, now_ms: number): LocalQueue {
  return { answer, arrivals, worked_out_at: new Date(now_ms).toISOString() };
}
