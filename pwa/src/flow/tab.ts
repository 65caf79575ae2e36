/** What this one tab is about: several people may have a tab each on one phone. */

const KEYS = { tab: "shuntbook.tab", event: "shuntbook.event", car: "shuntbook.car" } as const;

/** For a browser that lets no page keep anything: the tab knows until it is loaded again. */
const known = new Map<string, string>();

/** Return what this tab was set to, or null in a new tab. */
export function tabChoice(what: keyof typeof KEYS): string | null {
  return kept(() => sessionStorage.getItem(KEYS[what])) ?? known.get(what) ?? null;
}

/** Set this tab. */
export function setTabChoice(what: keyof typeof KEYS, value: string): void {
  known.set(what, value);
  kept(() => sessionStorage.setItem(KEYS[what], value));
}

/** Return this tab's own number, which nobody guesses: whoever is chosen in it is kept under that, not beside it. */
export function tabNumber(): string {
  const held = tabChoice("tab");
  if (held) return held;
  // Not crypto.randomUUID, which a page over plain http does not have.
  const made = crypto.getRandomValues(new Uint32Array(4)).join("-");
  setTabChoice("tab", made);
  return made;
}

/** Take out who spoke in this tab by an app of 0.1: a server that is put back brings it, and it would believe that. */
export function forgetOlderPerson(): void {
  kept(() => sessionStorage.removeItem("shuntbook.person"));
}

function kept<T>(work: () => T): T | null {
  try {
    return work();
  } catch (error) {
    if (error instanceof DOMException) return null;
    throw error;
  }
}
