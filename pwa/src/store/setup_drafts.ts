/** Drafts of set-ups, one per event: kept on this phone only until they are put in force or dropped. */

import type { Files } from "../setup/files";
import type { Book } from "../setup/table";
import { type Db, write } from "./db";

/**
 * A set-up that is being edited. `event`: the event, or the id that a new one was begun with. `version`: what it was
 * made from, "" for a new event; `base`: the files of that version. `of`: the event that a new one was made from.
 */
export interface SetupDraft {
  event: string;
  version: string;
  of: string | null;
  base: Files;
  book: Book;
  saved_at: string;
}

// Among the small facts, so that an older version of the app still opens the store.
const PREFIX = "setup draft ";
const keyOf = (event: string) => PREFIX + JSON.stringify(event);

/** Keep a draft in place of the event's last one; settles when it is on the disk. */
export function keepDraft(db: Db, draft: SetupDraft): Promise<void> {
  return write(db, ["meta"], async (tx) => {
    await tx.objectStore("meta").put(draft, keyOf(draft.event));
  });
}

/** Return all drafts. */
export async function draftsHere(db: Db): Promise<SetupDraft[]> {
  return (await db.getAll("meta", IDBKeyRange.bound(PREFIX, `${PREFIX}\uffff`))) as SetupDraft[];
}

/** Drop the draft of an event. */
export function dropDraft(db: Db, event: string): Promise<void> {
  return write(db, ["meta"], async (tx) => {
    await tx.objectStore("meta").delete(keyOf(event));
  });
}
