import { useEffect, useState } from "preact/hooks";

/** A second tap of the same glove comes down within this: it must not undo what the first one did. */
const SAME_TAP_MS = 1000;

/** Return whether a button that came up where a finger may still be tapping can be meant: not at once. id: of what it undoes. */
export function useArmed(id: string | null): boolean {
  const [armed, setArmed] = useState<string | null>(null);
  useEffect(() => {
    const timer = setTimeout(() => setArmed(id), SAME_TAP_MS);
    return () => clearTimeout(timer);
  }, [id]);
  return id !== null && armed === id;
}
