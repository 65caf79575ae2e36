/** Writes entries that are signed before they are on the disk: by a key that is there only while its PIN was said. */

import type { Entry } from "../kit/api";
import { signatureOf } from "../kit/signing";
import { type Db, type Write, write } from "./db";
import { type NewEntry, putEntries, withSeq } from "./entries";

/**
 * Write entries of one device with their signatures, all or none; returns them once they are on the disk.
 *
 * WebCrypto can't be waited for inside a transaction: the numbers are read before, and where another tab took one
 * meanwhile it is done again.
 */
export async function addSigned(db: Db, drafts: NewEntry[], held_at: string, key: CryptoKey): Promise<Entry[]> {
  for (;;) {
    const device = drafts[0]?.device ?? "";
    const last = (await db.get("seq", device)) ?? 0;
    const entries = drafts.map((draft, at) => withSeq(draft, last + 1 + at));
    const signed = await Promise.all(entries.map(async (one) => ({ ...one, sig: await signatureOf(one, key) })));
    if (await putIfNext(db, device, last, signed, held_at)) return signed;
  }
}

function putIfNext(db: Db, device: string, last: number, entries: Entry[], held_at: string): Promise<boolean> {
  return write(db, ["entries", "seq", "meta", "photos"], async (tx) => {
    const numbers = (tx as unknown as Write<"seq">).objectStore("seq");
    if (((await numbers.get(device)) ?? 0) !== last) return false;
    await numbers.put(last + entries.length, device);
    await putEntries(tx as unknown as Write<"entries" | "meta" | "photos">, entries, held_at);
    return true;
  });
}
