/** What the browser tells a page, and when: shown, hidden, online, another address, time going by. */

/** The screens' clock moves so often while the page is visible. */
const TICK_MS = 15_000;

/** Bytes that this app uses, and may use. */
export interface Space {
  used: number;
  quota: number;
}

export interface PageSigns {
  /** The network may be there again: the page was shown, or the browser says so. */
  onChance(): void;
  onHidden(): void;
  onAddress(): void;
  onTick(): void;
}

/** Say whether nobody sees the page. */
export const isHidden = () => document.visibilityState === "hidden";

/** Listen to the page. `online` is a hint, no more: it stays true when only the server is dead. */
export function watchPage(signs: PageSigns): void {
  document.addEventListener("visibilitychange", () => (isHidden() ? signs.onHidden() : signs.onChance()));
  addEventListener("online", () => signs.onChance());
  addEventListener("pageshow", (event) => event.persisted && signs.onChance());
  addEventListener("hashchange", () => signs.onAddress());
  setInterval(() => isHidden() || signs.onTick(), TICK_MS);
}

/** Return whether the browser keeps this app's store for good, or null where it does not tell. */
export const isPersisted = (): Promise<boolean | null> => told(async () => navigator.storage?.persisted?.(), null);

/** What the browser says of its room for this app, in bytes; null where it does not tell. An estimate, by its own name. */
export async function spaceHere(): Promise<Space | null> {
  const { usage, quota } = await told<StorageEstimate>(async () => navigator.storage?.estimate?.(), {});
  return usage === undefined || quota === undefined ? null : { used: usage, quota };
}

/** Ask the browser to keep this app's store for good. It may ask the person: settles when that is answered, or never. */
export const askToPersist = (): Promise<unknown> => told(async () => navigator.storage?.persist?.(), null);

async function told<T>(ask: () => Promise<T | undefined>, otherwise: T): Promise<T> {
  try {
    return (await ask()) ?? otherwise;
  } catch (error) {
    // Refused, as where cookies are blocked.
    if (error instanceof DOMException || error instanceof TypeError) return otherwise;
    throw error;
  }
}
