/** Finds what was being written when a photo from another app had the page loaded again. */

import type { ReportBody } from "../../kit/api";
import { keyOf } from "./keptDraft";

/** Return what was being written in this tab, not longer than `within_ms` ago, or null. */
export function draftBefore(car: string, within_ms: number): ReportBody | null {
  const [kept_ms, draft] = JSON.parse(sessionStorage.getItem(keyOf(car)) ?? "[0]") as [number, ReportBody | undefined];
  return draft && Date.now() - kept_ms <= within_ms ? draft : null;
}
