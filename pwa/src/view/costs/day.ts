/** A day of the event as people read it. Pure. */

import { locale } from "../../kit/spoken";

const PARTS = {
  weekday: "short",
  day: "numeric",
  month: "short",
  year: "numeric",
  timeZone: "UTC",
} as const;

/** Return "Sat, 13 Jun 2026" for "2026-06-13", which is the event's own day already; a text that is no day as it is. */
export function dayLabel(day: string): string {
  const ms = Date.parse(`${day}T00:00:00Z`);
  return Number.isNaN(ms) ? day : new Intl.DateTimeFormat(locale(), PARTS).format(ms);
}
