/** What is withheld here, and a person may be shown: of one phone, people see more and less than each other. */

import type { EventSetup } from "../kit/api";
import { setupHere } from "../store/answers";
import type { Db, IdentityRecord } from "../store/db";
import type { Lacking } from "../store/entries";
import { readMeta } from "../store/meta";

/** The most that a server is asked for at once. */
const MOST = 500;

/** Return what of the entries withheld here to ask for as a person, or null where that person was asked for all of it. */
export async function lackingFor(db: Db, identity: IdentityRecord): Promise<Lacking | null> {
  const sight = sightOf(identity, (await setupHere(db))?.answer.events ?? []);
  if (sight === (await readMeta(db, "sight"))) return null;
  const upto = await readMeta(db, "sight_upto");
  const ids = (await db.getAllKeysFromIndex("entries", "sending", "withheld")).filter((id) => id > upto);
  return { sight, ids: ids.slice(0, MOST), more: ids.length > MOST };
}

/** Return a name for what somebody sees of the events here: by roles, and by the cars that a set-up limits to. */
export function sightOf({ person }: IdentityRecord, events: EventSetup[]): string {
  const own = events.flatMap(({ event, people }) =>
    people.filter((one) => one.person === person).map(({ roles, cars }) => [event, [...roles].sort(), cars ?? []]),
  );
  return JSON.stringify([person, own]);
}
