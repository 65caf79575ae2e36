/** What goes out together, and under whose name it is brought. */

import type { Entry } from "../kit/api";
import type { IdentityRecord } from "../store/db";
import { speakingAs } from "../store/identities";

export const MOST_ENTRIES = 500;

/** A batch stays small enough for a slow link to take within a call's time-out. */
const MOST_CHARACTERS = 400_000;

export interface Batch {
  identity: IdentityRecord;
  entries: Entry[];
}

/**
 * Return the identity that brings an entry: its own device's, else its person's, else the one that speaks now.
 *
 * The author stays who he is; a phone may bring others' entries, as it does when a server was lost. Identities in
 * `refused` (by device) are passed over; null where none is left.
 */
function bringerOf(
  entry: Entry,
  identities: IdentityRecord[],
  refused: ReadonlySet<string>,
  person: string | null,
): IdentityRecord | null {
  const usable = identities.filter((one) => !refused.has(one.device));
  const own = usable.find((one) => one.device === entry.device);
  return own ?? speakingAs(usable, entry.person) ?? speakingAs(usable, person) ?? usable.at(-1) ?? null;
}

/** Return the first batch to send, at most `most` entries that one identity brings; null where there is none. */
export function nextBatch(
  waiting: Entry[],
  identities: IdentityRecord[],
  refused: ReadonlySet<string>,
  person: string | null,
  most = MOST_ENTRIES,
): Batch | null {
  const brought = waiting.map((entry) => ({ entry, identity: bringerOf(entry, identities, refused, person) }));
  const identity = brought.find((one) => one.identity !== null)?.identity;
  if (!identity) return null;
  const entries = brought.filter((one) => one.identity?.device === identity.device).map((one) => one.entry);
  return { identity, entries: firstOf(entries, most) };
}

function firstOf(entries: Entry[], most: number): Entry[] {
  let characters = 0;
  const end = entries.findIndex((entry, index) => {
    characters += JSON.stringify(entry).length;
    return index > 0 && (index >= most || characters > MOST_CHARACTERS);
  });
  return end < 0 ? entries : entries.slice(0, end);
}
