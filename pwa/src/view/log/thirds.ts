/** A rough place in the stage: early, middle, late. Pure. */

import type { ReportBody } from "../../kit/api";
import { log } from "../words/log";

export type Third = "early" | "middle" | "late";
const MIDDLE_OF: Record<Third, number> = { early: 1 / 6, middle: 1 / 2, late: 5 / 6 };
export const THIRDS = Object.keys(MIDDLE_OF) as Third[];

/** A rough place is kept as the middle of that third, and the note says that it is an estimate. */
export const roughly = (draft: ReportBody, third: Third, stage_km: number): ReportBody => ({
  ...draft,
  km: Math.round(MIDDLE_OF[third] * stage_km * 10) / 10,
  note: [withoutThird(draft.note), log.thirdNote(third)].filter(Boolean).join(" · "),
});

/** The third that stands in a report's note, null where none does. */
export const thirdOf = (draft: ReportBody): Third | null =>
  THIRDS.find((one) => draft.note.split(" · ").includes(log.thirdNote(one))) ?? null;

/** The note without the word that the km is an estimate. */
export const withoutThird = (note: string) =>
  note
    .split(" · ")
    .filter((part) => !THIRDS.some((third) => part === log.thirdNote(third)))
    .join(" · ");
