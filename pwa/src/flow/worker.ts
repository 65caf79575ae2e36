/** Asks a worker one thing: it is started for it and ended after it. */

import { trustedScript } from "../kit/trusted";

/** Return the reply; `broken` where the worker does not start or falls over. */
export function askWorker<Ask, Reply>(url: string, ask: Ask, broken: Reply): Promise<Reply> {
  const worker = new Worker(trustedScript(url), { type: "module" });
  const reply = new Promise<Reply>((resolve) => {
    worker.onmessage = (event: MessageEvent<Reply>) => resolve(event.data);
    worker.onerror = () => resolve(broken);
  });
  worker.postMessage(ask);
  return reply.finally(() => worker.terminate());
}
