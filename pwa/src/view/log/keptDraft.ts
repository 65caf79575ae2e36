/** Keeps a half-written report while the person looks at another screen. In memory only: nothing is filed until Save. */

import type { ReportBody } from "../../kit/api";

const drafts = new Map<string, ReportBody>();

export const keptDraft = (car: string): ReportBody | null => drafts.get(car) ?? null;

export function keepDraft(car: string, draft: ReportBody): void {
  drafts.set(car, draft);
}

export function forgetDraft(car: string): void {
  drafts.delete(car);
}
