/** Keeps the ticks of a walk round on this phone until they are saved: ten minutes' work outlives a reload or a flat battery. */

import type { Round } from "../../report/round";

const keyOf = (event: string, car: string) => `shuntbook.round ${event} ${car}`;

/** Return the ticks kept for a car, or null. */
export function keptRound(event: string, car: string): Round | null {
  const text = localStorage.getItem(keyOf(event, car));
  return text === null ? null : (JSON.parse(text) as Round);
}

/** Keep them as they are now; returns whether the phone had room. */
export function keepRound(event: string, car: string, round: Round): boolean {
  try {
    localStorage.setItem(keyOf(event, car), JSON.stringify(round));
    return true;
  } catch (error) {
    if (error instanceof DOMException) return false;
    throw error;
  }
}

/** Forget them: they are saved as reports, or given up. */
export function forgetRound(event: string, car: string): void {
  localStorage.removeItem(keyOf(event, car));
}
