/** An entry or an answer as this phone holds it. */

import type { Entry, EntryOf, Kind, Problem } from "../kit/api";

/** Where one of this phone's entries is: on the phone only, on the server, or refused with a reason. */
export type Sending = "waiting" | "sent" | "attention";

/** An entry that this phone holds, its own or heard from the server. */
export interface LocalEntry {
  entry: Entry;
  /** Whether it was written on this phone. */
  mine: boolean;
  sending: Sending;
  /** Why the server refused it; while it waits, why this phone can't believe what it was handed. Such count for nothing. */
  problem: Problem | null;
  /** When it was written here or heard, ISO time on this phone's clock. */
  held_at: string;
  /**
   * This phone's own count, taken when the entry was written here, heard, accepted or refused.
   *
   * A count and not a time, since a phone's clock jumps: it says what an answer can't know of yet.
   */
  arrival: number;
}

/** The server's last answer, and when this phone heard it (ISO time on this phone's clock). */
export interface Cached<T> {
  answer: T;
  heard_at: string;
  /** The phone's count (`LocalEntry.arrival`) when the answer was asked for: later entries may not be in it. */
  arrivals: number;
}

/** Say whether an entry is of a kind, so that its `data` is known. */
export function isKind<K extends Kind>(entry: Entry, ...kinds: K[]): entry is Entry & EntryOf<K> {
  return (kinds as Kind[]).includes(entry.kind);
}
