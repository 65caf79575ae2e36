/** Opens the phone's own sheet to give a file on. */

/** Return what opens the sheet with a file, or null where the browser has none. */
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
