/** Hand-over walks under way on this phone, one a car, kept from the first tap until they are signed. */

import type { WalkDraft } from "../report/walk_draft";
import { photosOfDraft } from "../report/walk_photos";
import { type Db, DURABILITY, type Write } from "./db";

const PREFIX = "walk ";
const keyOf = (event: string, car: string) => PREFIX + JSON.stringify([event, car]);

/** Return the walk under way of a car, or null. */
export async function walkDraftHere(db: Db, event: string, car: string): Promise<WalkDraft | null> {
  return ((await db.get("meta", keyOf(event, car))) as WalkDraft | undefined) ?? null;
}

/** Keep a walk as it is now; settles when it is on the disk. Errors: QuotaExceededError where the phone is full. */
export async function keepWalkDraft(db: Db, event: string, car: string, draft: WalkDraft): Promise<void> {
  const tx = db.transaction("meta", "readwrite", DURABILITY);
  await Promise.all([tx.store.put(draft, keyOf(event, car)), tx.done]);
}

/** Forget a walk: it was signed or given up. Its photos that no entry names go with other old drafts. */
export async function dropWalkDraft(db: Db, event: string, car: string): Promise<void> {
  await db.delete("meta", keyOf(event, car));
}

/** Return the photos that walks under way hold on to, read in the transaction that would forget others. */
export async function photosOfWalks(tx: Write<"meta">): Promise<Set<string>> {
  const drafts = (await tx.objectStore("meta").getAll(IDBKeyRange.bound(PREFIX, `${PREFIX}\uffff`))) as WalkDraft[];
  return new Set(drafts.flatMap(photosOfDraft));
}
