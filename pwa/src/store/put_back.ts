/** Puts back what the page still knows, where the browser lost some of the store, or all, under it. */

import type { Entry } from "../kit/api";
import type { LocalEntry } from "../report/local_entry";
import { isWithheld } from "../report/withheld";
import { type AnswerRecord, type Db, type IdentityRecord, type Write, write } from "./db";
import { addEntry } from "./held";
import { paged } from "./pages";

/** What a page has read of the store: all entries and people of this phone, and the set-up. Photos are too large. */
export interface Known {
  identities: IdentityRecord[];
  entries: LocalEntry[];
  setup: AnswerRecord | null;
}

export const nothingKnown = (): Known => ({ identities: [], entries: [], setup: null });

/** Add what was just written here: the store may be gone before it is read again. */
export function learn(known: Known, entries: Entry[], held_at: string): void {
  const arrival = 1 + Math.max(0, ...known.entries.map((one) => one.arrival));
  for (const entry of entries) {
    known.entries.push({ entry, mine: true, sending: "waiting", problem: null, held_at, arrival });
  }
}

/**
 * Put it back in one transaction; what came in since then stays as it is.
 *
 * Where a full disk tore what was written, Chromium leaves it out, or deletes the store and makes a new one. Each
 * device goes on after the last number that is known; where the phone is in the server's log is not put back, so that
 * it hears all of it again.
 */
export function putBack(db: Db, known: Known): Promise<void> {
  return write(db, ["identities", "entries", "answers", "seq", "meta"], async (tx) => {
    for (const one of known.identities) await tx.objectStore("identities").put(one);
    if (known.setup) await tx.objectStore("answers").put(known.setup);
    const ids = known.entries.map((one) => one.entry.id);
    const in_pages = await paged(tx as unknown as Write<"meta">, ids);
    for (const held of known.entries) {
      const { id } = held.entry;
      if (in_pages.has(id)) continue;
      if (await tx.objectStore("entries").getKey(id)) continue;
      const into = tx as unknown as Write<"entries">;
      await addEntry(into, { id, ...held, ...(isWithheld(held.entry) && { sending: "withheld" }) });
    }
    await putCounts(tx as unknown as Write<"seq" | "meta">, known.entries);
  });
}

async function putCounts(tx: Write<"seq" | "meta">, entries: LocalEntry[]): Promise<void> {
  const last = new Map<string, number>();
  for (const { entry, mine } of entries) {
    if (mine) last.set(entry.device, Math.max(entry.seq, last.get(entry.device) ?? 0));
  }
  for (const [device, seq] of last) {
    const now = (await tx.objectStore("seq").get(device)) ?? 0;
    await tx.objectStore("seq").put(Math.max(seq, now), device);
  }
  const arrivals = Number((await tx.objectStore("meta").get("arrivals")) ?? 0);
  await tx.objectStore("meta").put(Math.max(arrivals, ...entries.map((one) => one.arrival)), "arrivals");
}
