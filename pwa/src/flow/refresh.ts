/** Reads the store anew, once for many calls at a time. */

/** Return a function that runs `read`; calls during a run share one more run after it, so that each sees its own write. */
export function coalesced(read: () => Promise<void>): () => Promise<void> {
  let running: Promise<void> | null = null;
  let next: Promise<void> | null = null;
  const start = () => {
    running = read().finally(() => {
      running = null;
    });
    return running;
  };
  return () => {
    if (!running) return start();
    next ??= running
      .catch(() => {}) // The run's own caller has its error.
      .then(() => {
        next = null;
        return start();
      });
    return next;
  };
}
