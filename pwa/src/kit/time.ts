/** Times as entries hold them (RFC 3339) and as people read them. */

import { worded } from "./language";

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

/**
 * Return the clock time of an instant in the event's zone (IANA name), "13:02". Errors: RangeError for no zone.
 *
 * It and `dayIn` put their digits together from named parts: how a locale writes a date changes with its browser's data
 * (en-CA was 2026-11-28 once and is 11/28/2026 now), so that what was written for people is read by nobody else.
 */
export function clockIn(timezone: string, at_ms: number): string {
  const { hour, minute } = numbersOf(clocks(NUMBERS, timezone), at_ms);
  return `${two(hour)}:${two(minute)}`;
}

/** Return the day of an instant in a zone (IANA name), "2026-06-13". Errors: RangeError for no zone. */
export function dayIn(timezone: string, at_ms: number): string {
  const { year, month, day } = numbersOf(days(NUMBERS, timezone), at_ms);
  return `${String(year).padStart(4, "0")}-${two(month)}-${two(day)}`;
}

/** Return a zone's offset at an instant, in minutes east of UTC. Errors: RangeError for no zone. */
export function offsetIn(timezone: string, at_ms: number): number {
  const minute_ms = Math.floor(at_ms / 60_000) * 60_000;
  return (Date.parse(`${dayIn(timezone, minute_ms)}T${clockIn(timezone, minute_ms)}Z`) - minute_ms) / 60_000;
}

type Numbers = Record<"year" | "month" | "day" | "hour" | "minute", number>;

function numbersOf(format: Intl.DateTimeFormat, at_ms: number): Numbers {
  return Object.fromEntries(format.formatToParts(at_ms).map(({ type, value }) => [type, Number(value)])) as Numbers;
}

// The files' own calendar and digits, whatever those of the phone are.
const NUMBERS = "en-GB-u-ca-gregory-nu-latn";
const clocks = kept({ hour: "numeric", minute: "numeric", hourCycle: "h23" });
const days = kept({ year: "numeric", month: "numeric", day: "numeric" });

/** Return a day for people to read, "15 May 2026"; of an instant in a zone. */
export const longDay = (locale: string, timezone: string, at_ms: number): string =>
  long(locale, timezone).format(at_ms);

/** Return a day for people to read, "Sat, 13 Jun 2026"; of an instant in a zone. */
export const weekday = (locale: string, timezone: string, at_ms: number): string =>
  short(locale, timezone).format(at_ms);

const long = kept({ day: "numeric", month: "long", year: "numeric" });
const short = kept({ weekday: "short", day: "numeric", month: "short", year: "numeric" });

/** Return how long a penalty is as officials write it, in seconds below two minutes: "90 s", "2 min 40 s", "25 min". */
export function minutesAndSeconds(seconds: number): string {
  const [min, s] = seconds < 120 ? [0, seconds] : [Math.floor(seconds / 60), seconds % 60];
  return [min > 0 && `${min} min`, (s > 0 || min === 0) && `${s} s`].filter(Boolean).join(" ");
}

/** Return the name of the zone that this phone is in. */
export const ownZone = (): string => own(undefined, undefined).resolvedOptions().timeZone;
const own = kept({});

/** Return what gives the formatter of a locale and zone: to make one takes 65 µs, to use one again 0.75. */
function kept(options: Intl.DateTimeFormatOptions) {
  const made = new Map<string, Intl.DateTimeFormat>();
  return (locale: string | undefined, timeZone: string | undefined): Intl.DateTimeFormat => {
    const key = `${locale} ${timeZone}`;
    const known = made.get(key);
    if (known) return known;
    const format = new Intl.DateTimeFormat(locale, { ...options, timeZone });
    made.set(key, format);
    return format;
  };
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
