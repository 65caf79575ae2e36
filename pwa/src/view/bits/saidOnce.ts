/** What is said once on a phone: remembered beside the log, since it is nobody's fact. */

export type Once = "home" | "tour";

const keyOf = (what: Once) => `shuntbook.said ${what}`;

export const wasSaid = (what: Once): boolean => localStorage.getItem(keyOf(what)) !== null;

/** On a full phone it is said again: no harm. */
export function markSaid(what: Once): void {
  try {
    localStorage.setItem(keyOf(what), "1");
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
  }
}
