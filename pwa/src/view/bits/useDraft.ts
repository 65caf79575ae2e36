/** What is being typed and ticked on a form, until it is saved. */

import { useState } from "preact/hooks";

export interface FormDraft<T> {
  draft: T;
  /** Change some of it. */
  change(some: Partial<T>): void;
  /** Begin again with what was there first. */
  reset(): void;
}

/** `first` counts once: what the form begins with. */
export function useDraft<T extends object>(first: T | (() => T)): FormDraft<T> {
  const [start] = useState(first);
  const [draft, setDraft] = useState(start);
  return { draft, change: (some) => setDraft((now) => ({ ...now, ...some })), reset: () => setDraft(start) };
}
