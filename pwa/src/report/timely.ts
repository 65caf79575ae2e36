/** Whether the times that an entry names can be meant, as `report/timely.py` has it for what newly comes in. Pure. */

import type { Entry } from "../kit/api";
import { msOf } from "../kit/time";

const FIRST_YEAR = 1900;
const LAST_YEAR = 2200;
/** Fields of `data` that name a time in words of the person's own; a bare clock time or a word names no year. */
const IN_DATA = ["official_time", "ready_by"];

/** Say whether one of an entry's times lies in a year that nobody can mean. What a log holds counts whatever it says. */
export function isOddTime(entry: Entry): boolean {
  const { at, said_at } = entry as { at: string; said_at?: unknown };
  const data = entry.data as Record<string, unknown>;
  return [at, said_at, ...IN_DATA.map((name) => data[name])].some(
    (time) => typeof time === "string" && /^\d{4}-/.test(time) && !canBeMeant(time),
  );
}

function canBeMeant(time: string): boolean {
  const ms = msOf(time);
  if (ms === null) return true;
  const year = new Date(ms).getUTCFullYear();
  return year >= FIRST_YEAR && year <= LAST_YEAR;
}
