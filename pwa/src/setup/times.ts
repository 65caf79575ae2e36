/**
 * Times of the event's zone as people write them, "2026-06-13 10:20", and as files hold them, with their offset
 * (RFC 3339, 2026-06-13T10:20:00+02:00).
 */

import { offsetIn } from "../kit/time";

const SHORT = /^(\d{4}-\d\d-\d\d)[ T](\d{1,2}):(\d\d)(?::(\d\d))?$/;
const FULL = /^(\d{4}-\d\d-\d\d)[Tt ](\d\d:\d\d)(?::(\d\d))?(?:\.0+)?(Z|[+-]\d\d:\d\d)$/i;
const DAY_MS = 86_400_000;

/** Return a time with its offset for one of the zone, or null where it is no time or the zone is none. */
export function withOffset(local: string, timezone: string): string | null {
  const [, day, hour = "", minute, second = "00"] = SHORT.exec(local.trim()) ?? [];
  if (!day) return null;
  const bare = `${day}T${hour.padStart(2, "0")}:${minute}:${second}`;
  const ms = Date.parse(`${bare}Z`);
  if (Number.isNaN(ms)) return null;
  // The offset depends on the instant, and the instant on the offset: the second guess holds outside a change of clocks.
  const first = offsetMinutes(timezone, ms);
  const offset = first === null ? null : offsetMinutes(timezone, ms - first * 60_000);
  return offset === null ? null : bare + written(offset);
}

/** Return a file's time as people write it; as it stands where its offset is another than the zone's. */
export function withoutOffset(full: string, timezone: string): string {
  const [, day, clock, second = "00", offset] = FULL.exec(full) ?? [];
  const bare = full.replace(/\.0+(?=Z|[+-]\d\d:)/i, "");
  if (!day) return bare;
  const local = `${day} ${clock}${second === "00" ? "" : `:${second}`}`;
  const same = withOffset(local, timezone);
  return same !== null && Date.parse(same) === Date.parse(`${day}T${clock}:${second}${offset}`) ? local : bare;
}

/** Return the day of a time, or null. */
export const dayOf = (time: string): string | null => /^\d{4}-\d\d-\d\d/.exec(time.trim())?.[0] ?? null;

/** Return how many days lie between two days. */
export const daysBetween = (from: string, to: string): number =>
  Math.round((Date.parse(`${to}T00:00Z`) - Date.parse(`${from}T00:00Z`)) / DAY_MS);

/** Return a time, or a day, so many days later on the same clock; a text that is neither stays. */
export function daysLater(time: string, days: number): string {
  const day = dayOf(time);
  if (!day) return time;
  const shifted = new Date(Date.parse(`${day}T00:00Z`) + days * DAY_MS).toISOString().slice(0, 10);
  return time.trim().replace(day, shifted);
}

function offsetMinutes(timezone: string, ms: number): number | null {
  try {
    return offsetIn(timezone || "UTC", ms);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

function written(offset: number): string {
  const two = (value: number) => String(value).padStart(2, "0");
  const minutes = Math.abs(offset);
  return `${offset < 0 ? "-" : "+"}${two(Math.trunc(minutes / 60))}:${two(minutes % 60)}`;
}
