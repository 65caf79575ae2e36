/** Keeps a half-written report while the person looks at another screen or shares a photo. Nothing is filed until Save. */

import type { ReportBody } from "../../kit/api";

const drafts = new Map<string, ReportBody>();

/** Under which it lies in this tab's storage. */
export const keyOf = (car: string) => `shuntbook.draft ${car}`;

export const keptDraft = (car: string): ReportBody | null => drafts.get(car) ?? null;

export function keepDraft(car: string, draft: ReportBody): void {
  drafts.set(car, draft);
  // A photo that comes from another app loads the page again: see draftBefore.
  sessionStorage.setItem(keyOf(car), JSON.stringify([Date.now(), draft]));
}

/** Forget all that is half-written: another person uses this phone. */
export function forgetDrafts(): void {
  for (const car of drafts.keys()) forgetDraft(car);
}

export function forgetDraft(car: string): void {
  drafts.delete(car);
  sessionStorage.removeItem(keyOf(car));
}
