/** Offers a file to the phone's own sharing. */

const REFUSED_MS = 2_000;

/** Return what opens the phone's sharing sheet for a file, or null where it has none for files. */
export function shareOf(file: File): (() => Promise<void>) | null {
  const data = { files: [file] };
  if (!navigator.canShare?.(data)) return null;
  return async () => {
    try {
      // What can't be shared is refused at once. A sheet may stay open, or never tell that it was closed: nobody waits.
      await Promise.race([navigator.share(data), new Promise((done) => setTimeout(done, REFUSED_MS))]);
    } catch (error) {
      // The person closed the sheet again.
      if (!(error instanceof DOMException && error.name === "AbortError")) throw error;
    }
  };
}
