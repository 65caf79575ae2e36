/** A day of the event as people read it. Pure. */

import { locale } from "../../kit/language";
import { weekday } from "../../kit/time";

/** Return "Sat, 13 Jun 2026" for "2026-06-13", which is the event's own day already; a text that is no day as it is. */
export function dayLabel(day: string): string {
  const ms = Date.parse(`${day}T00:00:00Z`);
  return Number.isNaN(ms) ? day : weekday(locale(), "UTC", ms);
}
