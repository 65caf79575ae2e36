/** Offers a file to the phone's own sharing. */

/** Return what opens the phone's sharing sheet for a file, or null where it has none for files. */
export function shareOf(file: File): (() => Promise<void>) | null {
  const data = { files: [file] };
  if (!navigator.canShare?.(data)) return null;
  return async () => {
    try {
      await navigator.share(data);
    } catch (error) {
      // The person closed the sheet again.
      if (!(error instanceof DOMException && error.name === "AbortError")) throw error;
    }
  };
}
