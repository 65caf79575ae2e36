/** Asks a browser for what it may not have, may refuse, or may never answer. */

const TICK_MS = 100;

/**
 * Return what `ask` brings; `otherwise` where the browser lacks it or refuses, or has not answered in about `patience_ms`.
 *
 * Only ticks of this thread count, so that a slow phone which is busy with something else is not taken for a browser
 * that does not answer. Errors: what is neither a DOMException nor a TypeError.
 */
export async function orElse<T>(ask: () => Promise<T> | T, otherwise: T, patience_ms: number): Promise<T> {
  let answered = false;
  const asked = (async () => ask())()
    .catch(refused(otherwise))
    .finally(() => {
      answered = true;
    });
  const patience = async () => {
    for (let ticks = patience_ms / TICK_MS; ticks > 0 && !answered; ticks--) await tick();
    return otherwise;
  };
  return Promise.race([asked, patience()]);
}

const tick = () => new Promise((done) => setTimeout(done, TICK_MS));

const refused =
  <T>(otherwise: T) =>
  (error: unknown): T => {
    if (error instanceof DOMException || error instanceof TypeError) return otherwise;
    throw error;
  };
