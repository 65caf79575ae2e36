/** The form of a car that has retired: what it begins with, and what it says that was not said yet. Pure. */

import type { DataOf } from "../kit/api";
import type { Retirement } from "./retirement";

/** What the form holds; `clock` is the time to be ready by, HH:MM. */
export interface RetirementDraft {
  stage: string | null;
  km: number | null;
  drives: NonNullable<DataOf["car.retired"]["drives"]> | null;
  cause: string | null;
  recovered_by: string;
  restart: "yes" | "no" | "unknown";
  by_ms: number;
}

/** Return what was said last as a form begins with it; `stage`: where the car was last. */
export function draftOf(held: Retirement | null, stage: string | null, now_ms: number): RetirementDraft {
  const said = held?.retired?.data;
  const by_ms = held?.now.state === "restarts" ? held.now.by_ms : nextMorning(now_ms);
  return {
    stage: said?.stage ?? stage,
    km: typeof said?.km === "number" ? said.km : null,
    drives: said?.drives ?? null,
    cause: said?.cause ?? null,
    recovered_by: said?.recovered_by ?? "",
    restart: held?.now.state === "restarts" ? "yes" : (held?.now.restart ?? "unknown"),
    by_ms,
  };
}

/** Most restarts are overnight: a form begins with a full quarter of an hour, ten hours on. Common practice, no source. */
const OVERNIGHT_MS = 10 * 3_600_000;
const QUARTER_MS = 15 * 60_000;
const nextMorning = (now_ms: number) => Math.ceil((now_ms + OVERNIGHT_MS) / QUARTER_MS) * QUARTER_MS;

/** Return what a form says that was not said yet: the retirement, the restart, either or neither. */
export function saidNew(
  draft: RetirementDraft,
  held: Retirement | null,
): { retired: DataOf["car.retired"] | null; restarts: { by_ms: number } | null } {
  const { by_ms, ...rest } = draft;
  const before = held?.retired ? draftOf(held, null, 0) : null;
  const is_same = before !== null && same({ ...rest, restart: before.restart }, before);
  const stays = before?.restart === draft.restart;
  // Only a restart takes back "no restart"; the other way round the retirement is said again.
  const retired = is_same && (stays || draft.restart === "yes") ? null : rest;
  const is_new =
    draft.restart === "yes" &&
    !(stays && retired === null && held?.now.state === "restarts" && held.now.by_ms === by_ms);
  return { retired, restarts: is_new ? { by_ms } : null };
}

const FIELDS = ["stage", "km", "drives", "cause", "recovered_by", "restart"] as const;
const same = (one: Omit<RetirementDraft, "by_ms">, other: RetirementDraft) =>
  FIELDS.every((field) => one[field] === other[field]);
