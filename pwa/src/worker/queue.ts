/** Works out a queue off the page's thread: a long log takes longer than a tap may wait. */

import type { QueueAsk, QueueReply } from "../kit/queue_ask";
import { queueAnswer } from "../queue/answer";

declare const self: DedicatedWorkerGlobalScope;

self.onmessage = (event: MessageEvent<QueueAsk>) => {
  try {
    self.postMessage({ queue: queueAnswer(event.data) } satisfies QueueReply);
  } catch (error) {
    // The worker's outermost edge: whatever an entry holds, the page goes on with the server's last answer.
    const failed = error instanceof Error ? error.message : String(error);
    self.postMessage({ failed } satisfies QueueReply);
  }
};
