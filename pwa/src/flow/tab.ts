/** What this one tab is about: several people may have a tab each on one phone. */

const KEYS = { person: "shuntbook.person", event: "shuntbook.event", car: "shuntbook.car" } as const;

/** Return what this tab was set to, or null in a new tab. */
export function tabChoice(what: keyof typeof KEYS): string | null {
  return sessionStorage.getItem(KEYS[what]);
}

/** Set this tab. */
export function setTabChoice(what: keyof typeof KEYS, value: string): void {
  sessionStorage.setItem(KEYS[what], value);
}
