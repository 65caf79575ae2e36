/** Reads the store again, once for many calls at a time. */

/**
 * Return a function that runs `read`; calls during a run share one more run after it, so that each sees its own write.
 * Two runs are never under way at a time: what an older one read would be drawn over what a newer one did.
 */
export function coalesced(read: () => Promise<void>): () => Promise<void> {
  let last: Promise<void> | null = null;
  let next: Promise<void> | null = null;
  const start = () => {
    const run = read().finally(() => {
      if (last === run && next === null) last = null;
    });
    last = run;
    return run;
  };
  return () => {
    if (!last) return start();
    next ??= last
      .catch(() => {}) // The run's own caller has its error.
      .then(() => {
        next = null;
        return start();
      });
    return next;
  };
}
