/** Photos on this phone, until the server has them and after. */

import type { Problem } from "../kit/api";
import { type Db, type PhotoRecord, type Write, write } from "./db";
import { photosOfWalks } from "./walks";

/** A draft that no entry named within a day was given up. */
const DRAFT_KEPT_MS = 86_400_000;

/** Keep a shrunk photo of a report being written. Errors: QuotaExceededError where the phone is full. */
export function keepDraftPhoto(
  db: Db,
  photo: { photo: string; bytes: ArrayBuffer; type: string },
  held_at: string,
): Promise<void> {
  return write(db, ["photos"], async (tx) => {
    const photos = tx.objectStore("photos");
    const held = await photos.get(photo.photo);
    if (held && held.bytes.byteLength > 0) return;
    await photos.put({ ...photo, sending: "draft", problem: null, device: null, held_at });
  });
}

/** Return a photo, or null where it is not here or can't be read any more. */
export async function photoHere(db: Db, photo: string): Promise<PhotoRecord | null> {
  try {
    const tx = db.transaction("photos");
    // Waited for together: a read that fails ends its transaction with an error of its own.
    const [held] = await Promise.all([tx.store.get(photo), tx.done]);
    return held && held.bytes.byteLength > 0 ? held : null;
  } catch (error) {
    // Its file may be damaged while the rest of the store is whole (DataError, UnknownError, NotReadableError).
    if (error instanceof DOMException) return null;
    throw error;
  }
}

/** Return the names of the photos still to be sent. */
export async function waitingPhotos(db: Db): Promise<string[]> {
  return db.getAllKeysFromIndex("photos", "sending", "waiting");
}

/** Return how many photos the server has not acknowledged, those that need attention left out. */
export function countWaitingPhotos(db: Db): Promise<number> {
  return db.countFromIndex("photos", "sending", "waiting");
}

/** Return how many photos were refused or can't be read. */
export function countBadPhotos(db: Db): Promise<number> {
  return db.countFromIndex("photos", "sending", "attention");
}

/** Keep what became of a photo. */
export function settlePhoto(db: Db, photo: string, problem: Problem | null): Promise<void> {
  return write(db, ["photos"], async (tx) => {
    const held = await tx.objectStore("photos").get(photo);
    if (held) await tx.objectStore("photos").put({ ...held, sending: problem ? "attention" : "sent", problem });
  });
}

/** Mark a photo that can't be read as missing, without reading it; its entry has gone out without it. */
export async function markMissing(db: Db, photo: string, held_at: string, problem: Problem): Promise<void> {
  const gone = { photo, bytes: new ArrayBuffer(0), type: "", device: null };
  await db.put("photos", { ...gone, sending: "attention", problem, held_at });
}

/** Forget drafts that no entry came to name and no walk under way holds on to. */
export function dropOldDrafts(db: Db, now_ms: number): Promise<void> {
  return write(db, ["photos", "meta"], async (tx) => {
    const walked = await photosOfWalks(tx as unknown as Write<"meta">);
    for await (const cursor of tx.objectStore("photos").index("sending").iterate("draft")) {
      const isOld = now_ms - Date.parse(cursor.value.held_at) > DRAFT_KEPT_MS;
      if (isOld && !walked.has(cursor.value.photo)) await cursor.delete();
    }
  });
}

/** Keep a photo that the server gave, to be looked at without it; one that is here stays as it is. */
export function keepHeardPhoto(
  db: Db,
  photo: { photo: string; bytes: ArrayBuffer; type: string },
  held_at: string,
): Promise<void> {
  return write(db, ["photos"], async (tx) => {
    const held = await tx.objectStore("photos").get(photo.photo);
    if (held && held.bytes.byteLength > 0) return;
    await tx.objectStore("photos").put({ ...photo, sending: "sent", problem: null, device: null, held_at });
  });
}
