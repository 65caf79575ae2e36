/** Times as entries hold them (RFC 3339) and as people read them. */

import { worded } from "./spoken";

const two = (value: number) => String(Math.trunc(Math.abs(value))).padStart(2, "0");

/** Return RFC 3339 with this phone's offset: 2026-05-16T10:42:07+02:00. `offset_minutes` is east of UTC. */
export function localIso(now_ms: number, offset_minutes = -new Date(now_ms).getTimezoneOffset()): string {
  const shifted = new Date(now_ms + offset_minutes * 60_000).toISOString().slice(0, 19);
  const sign = offset_minutes < 0 ? "-" : "+";
  return `${shifted}${sign}${two(offset_minutes / 60)}:${two(offset_minutes % 60)}`;
}

/** Return the clock time of an RFC 3339 text as it was there, "10:42"; the text itself if it has none. */
export function clockOf(at: string): string {
  return /^(?:\d{4}-\d\d-\d\d[Tt ])?(\d\d:\d\d)/.exec(at)?.[1] ?? at;
}

/** Return the clock time of an instant in the event's zone (IANA name), "13:02". */
export function clockIn(timezone: string, at_ms: number): string {
  return new Intl.DateTimeFormat("en-GB", {
    hour: "2-digit",
    minute: "2-digit",
    hourCycle: "h23",
    timeZone: timezone,
  }).format(at_ms);
}

/**
 * Return the instant (Unix ms) of a time on the officials' clock, or null where it can't be read.
 *
 * `official_time` is RFC 3339, or HH:MM[:SS], which takes the day and offset of `at`; of the days around,
 * the one nearest to `at` is meant (00:02 typed at 23:58 is tomorrow's).
 */
export function officialMs(official_time: string, at: string): number | null {
  const clock = /^(\d{1,2}):(\d\d)(?::(\d\d))?$/.exec(official_time.trim());
  if (!clock) return msOf(official_time);
  const base = /^(\d{4}-\d\d-\d\d)[Tt ].*?([Zz]|[+-]\d\d:\d\d)$/.exec(at);
  if (!base) return null;
  const [, hour = "", minute = "", second = "00"] = clock;
  const same_day = msOf(`${base[1]}T${hour.padStart(2, "0")}:${minute}:${second}${base[2]}`);
  const at_ms = msOf(at);
  return same_day === null || at_ms === null ? null : nearestDay(same_day, at_ms);
}

/** Return the instant of an RFC 3339 time in Unix ms, or null; a leap second is the second before it, as on the server. */
export function msOf(at: string): number | null {
  const ms = Date.parse(at.replace(/:60(?=[.Zz+-])/, ":59"));
  return Number.isNaN(ms) ? null : ms;
}

const DAY_MS = 86_400_000;

function nearestDay(same_day: number, at_ms: number): number {
  const days = Math.round((at_ms - same_day) / DAY_MS);
  return same_day + days * DAY_MS;
}

/** How long ago something was, in words; laid over by the language that is spoken. */
const since = worded("since", {
  now: "just now",
  minutes: (n: number) => `${n} min ago`,
  hours: (n: number) => `${n} h ago`,
  days: (n: number) => `${n} days ago`,
});
export type Since = typeof since;

/** Return how long ago something was, in words: "just now", "4 min ago", "2 h ago", "3 days ago". */
export function ago(then_ms: number, now_ms: number): string {
  const minutes = Math.max(0, Math.floor((now_ms - then_ms) / 60_000));
  if (minutes < 1) return since.now;
  if (minutes < 60) return since.minutes(minutes);
  const hours = Math.floor(minutes / 60);
  return hours < 48 ? since.hours(hours) : since.days(Math.floor(hours / 24));
}
