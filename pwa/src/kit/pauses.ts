/** Long work on many things, done a portion at a time: between two of them the page answers a tap and draws. */

/** What is worked out from fewer is not felt, and done in one go. */
const MANY = 2_000;

/** Settles when the page has had its turn. */
export type Pause = () => Promise<void>;

/** Say whether work on so many things is done in portions. */
export const areMany = (count: number): boolean => count >= MANY;

/** A portion that took less is followed by the next at once. */
const SHORT_MS = 8;

/** Return how to pause between portions of work on so many things, which begins now: not at all where they are few. */
export function pausesFor(count: number): Pause {
  if (!areMany(count)) return async () => {};
  let begun = performance.now();
  return async () => {
    if (performance.now() - begun < SHORT_MS) return;
    await giveWay();
    begun = performance.now();
  };
}

/** The browser's own queue of tasks (W3C Web Incubator, Prioritized Task Scheduling); not every browser has one. */
interface Tasks {
  postTask?(work: () => void, asked: { priority: "background" }): Promise<void>;
}

/** Let all else that waits have its turn: taps, frames, what a tap loads. */
export async function giveWay(): Promise<void> {
  // Nobody looks at a page that is hidden, and the browser lets its tasks wait.
  if (globalThis.document?.hidden) return;
  const { scheduler } = globalThis as { scheduler?: Tasks };
  if (scheduler?.postTask) await scheduler.postTask(() => {}, { priority: "background" });
  else await nextMessage();
}

/** A task of its own without the wait that a timer in a timer has. */
function nextMessage(): Promise<void> {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      done();
    };
    port2.postMessage(null);
  });
}
