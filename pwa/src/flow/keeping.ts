/** Keeps the app itself on this phone, file by file, until all of it is there: a lost signal only puts it off. */

import type { Keeping, Kept } from "../kit/kept_app";
import { waitMs } from "../sync/backoff";

/** What the browser does for it; tests bring their own. */
export interface Keeper {
  /** Rejects where the worker's script can't be had, with a TypeError or a DOMException. */
  register(): Promise<ServiceWorkerRegistration>;
  /** Tells when the network may be back. */
  online: Pick<EventTarget, "addEventListener">;
  /** Runs something later; returns how to forget it. */
  later(run: () => void, ms: number): () => void;
}

/** Fewer are not drawn again: each drawing reads the store. */
const STEP = 25;

/** No worker, no haste: the longest wait is a minute, `online` cuts it short. */
const SLOWER = 5;

/** Start keeping. Returns where the worker's messages go; `onWorker` hears once, when a worker is there. */
export function keepApp(
  keeper: Keeper,
  onKeeping: (keeping: Keeping) => void,
  onWorker: (registration: ServiceWorkerRegistration) => void,
): (told: Kept) => void {
  let count: { kept: number; of: number | null } = { kept: 0, of: null };
  let drawn = -STEP;
  let failures = 0;
  let busy = false;
  let done = false;
  let forget = () => {};
  const attempt = async () => {
    if (busy) return;
    busy = true;
    forget();
    const worker = await keeper.register().then(installed).catch(unreachable);
    done = worker !== null;
    if (worker) return onWorker(worker);
    busy = false;
    failures += 1;
    onKeeping({ state: "retrying", ...count });
    forget = keeper.later(attempt, waitMs(failures, Math.random()) * SLOWER);
  };
  keeper.online.addEventListener("online", () => void attempt());
  void attempt();
  return (told) => {
    count = told;
    // What it told last may come after it fell over.
    if (!busy && !done) return onKeeping({ state: "retrying", ...count });
    if (done || told.kept - drawn < STEP) return;
    drawn = told.kept;
    onKeeping({ state: "keeping", ...count });
  };
}

/** Settle with the registration once it has an active worker, or with null where the first one fell over. */
async function installed(registration: ServiceWorkerRegistration): Promise<ServiceWorkerRegistration | null> {
  const first = registration.installing ?? registration.waiting;
  if (registration.active) return registration;
  if (!first) return null;
  return new Promise((resolve) => {
    const look = () => {
      if (first.state === "activated") resolve(registration);
      if (first.state === "redundant") resolve(null);
    };
    first.addEventListener("statechange", look);
    // It may have fallen over before anybody listened.
    look();
  });
}

// With the server dead there is nothing to register from.
function unreachable(error: unknown): null {
  if (!(error instanceof TypeError || error instanceof DOMException)) throw error;
  return null;
}
