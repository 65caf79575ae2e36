/** Entries as few bytes: JSON, deflated (RFC 1951) against the dictionary. */

import { deflateSync, inflateSync } from "fflate";
import type { Entry } from "../kit/api";
import { DICTIONARY } from "./dictionary";

/** Nothing that a run of codes can hold unpacks to more. */
const MOST_BYTES = 1 << 20;

/** Return entries packed; the same JSON values come out again, with their signatures. */
export function pack(entries: Entry[]): Uint8Array {
  const json = new TextEncoder().encode(JSON.stringify(entries));
  return deflateSync(json, { level: 9, dictionary: DICTIONARY });
}

/** Return the list that was packed, its items unread, or null where the bytes are none. */
export function unpack(bytes: Uint8Array): unknown[] | null {
  try {
    const json = inflateSync(bytes, { dictionary: DICTIONARY, out: new Uint8Array(MOST_BYTES) });
    const value: unknown = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(json));
    return Array.isArray(value) ? value : null;
  } catch (error) {
    // What inflating, UTF-8 or JSON say of bytes that are none: a code that was not ours after all.
    if (error instanceof Error) return null;
    throw error;
  }
}
