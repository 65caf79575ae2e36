/** Up to where of the log a person's phone is: people of one phone in other events are sent other entries. */

import type { EventSetup } from "../kit/api";
import { setupHere } from "../store/answers";
import type { Db, IdentityRecord } from "../store/db";
import { identitiesHere } from "../store/identities";
import { readMeta } from "../store/meta";

/** Where a device is in which log; `device`: named where it is counted by itself, since others here are in other events. */
export interface Stand {
  log_id: string;
  cursor: number;
  device?: string;
}

/** Return where a device is; what it was not sent yet, since another's entries took the cursor on, it is sent again. */
export async function standOf(db: Db, device: string): Promise<Stand> {
  const log_id = (await readMeta(db, "log_id")) ?? "";
  const apart = areApart(await identitiesHere(db), (await setupHere(db))?.answer.events ?? []);
  if (!apart) return { log_id, cursor: await readMeta(db, "cursor") };
  return { log_id, cursor: (await readMeta(db, "cursors"))[device] ?? 0, device };
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
