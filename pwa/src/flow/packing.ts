/** Lays entries that came one by one together in pages, when nothing else is to be done. */

import { countEntries } from "../store/entries";
import type { Core } from "./core";

/** So many that lie by themselves cost nothing that is felt. */
const MOST_SINGLE = 1_000;

const PAUSE_MS = 2_000;
const under_way = new WeakSet<Core>();

/** See to it, a page at a time, that few entries lie by themselves. A phone that is full is left as it is. */
export function packLater(core: Core): void {
  if (under_way.has(core)) return;
  under_way.add(core);
  setTimeout(() => {
    const packed = pack(core).catch((error: unknown) => {
      if (error instanceof DOMException || error instanceof TypeError) return false;
      throw error;
    });
    void packed.then((more) => {
      under_way.delete(core);
      if (more) packLater(core);
    });
  }, PAUSE_MS);
}

async function pack(core: Core): Promise<boolean> {
  const db = await core.db;
  if ((await countEntries(db, "sent")) < MOST_SINGLE) return false;
  return (await (await import("../store/packing")).packOne(db)) > 0;
}
