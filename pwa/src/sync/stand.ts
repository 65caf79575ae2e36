/** Where this phone is in which log, as one of its devices says. */

import type { Db } from "../store/db";
import { identitiesHere } from "../store/identities";
import { readUpto } from "../store/pages";

/** `device`: named where it has a place of its own, since others on this phone are in other events. */
export interface Stand {
  log_id: string;
  cursor: number;
  device?: string;
}

/** Return where a device is; what it was not sent yet, since another's entries took the cursor on, it is sent again. */
export async function standOf(db: Db, device: string): Promise<Stand> {
  const upto = await readUpto(db.transaction("meta"));
  const shared = { log_id: upto.log_id ?? "", cursor: upto.cursor };
  const identities = await identitiesHere(db);
  if (identities.length < 2) return shared;
  const apart = await import("./whose_cursor").catch(() => null);
  // Too much asked for again loses nothing, a place too far on would.
  if (!apart) return { ...shared, cursor: 0 };
  const cursor = await apart.ownCursor(db, device, identities);
  return cursor === null ? shared : { ...shared, cursor, device };
}
