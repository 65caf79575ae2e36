/** Up to where of the log a person's phone is, where people of one phone are in other events and sent other entries. */

import type { EventSetup } from "../kit/api";
import { setupHere } from "../store/answers";
import type { Db, IdentityRecord } from "../store/db";
import { readUpto } from "../store/pages";

/** Return where a device is by itself, or null where all here are in the same events, and share one place. */
export async function ownCursor(db: Db, device: string, identities: IdentityRecord[]): Promise<number | null> {
  const apart = areApart(identities, (await setupHere(db))?.answer.events ?? []);
  return apart ? ((await readUpto(db.transaction("meta"))).cursors[device] ?? 0) : null;
}

/** Say whether people on this phone are in other events than each other. */
export function areApart(identities: IdentityRecord[], events: EventSetup[]): boolean {
  return new Set(identities.map((one) => eventsOf(one, events))).size > 1;
}

// What the set-ups here say of a person; of events whose set-up is not here yet, what the server said at joining.
function eventsOf({ person, events: joined }: IdentityRecord, events: EventSetup[]): string {
  const known = events.map((one) => one.event);
  const now = events.filter((one) => one.people.some((other) => other.person === person)).map((one) => one.event);
  return JSON.stringify([...new Set([...now, ...joined.filter((one) => !known.includes(one))])].sort());
}
