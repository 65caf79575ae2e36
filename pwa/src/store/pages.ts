/**
 * Pages of entries: what came in many at a time lies together, one record for hundreds, which is put and read at once.
 *
 * An entry lies in a page or by itself, never in both. In pages are only those that a server has and this phone did not
 * write: nothing changes of them until another log is met, and then each lies by itself again.
 */

import type { EntryRecord, PageRecord } from "./db";

/** So few are put one by one: a page costs a reading of all of it where one of its names comes again. */
export const FEWEST = 100;

/** A transaction that may read at least pages. */
export interface ReadPages {
  objectStore(name: "pages"): {
    getAllKeys(): Promise<PageKey[]>;
    get(key: PageKey): Promise<PageRecord | undefined>;
  };
}
type PageKey = [first: string, last: string];

/** Return those of some entries that lie in pages, by id; only pages that may hold one are read. */
export async function paged(tx: ReadPages, ids: string[]): Promise<Map<string, EntryRecord>> {
  const wanted = [...ids].sort();
  const [first, last] = [wanted[0], wanted.at(-1)];
  if (first === undefined || last === undefined) return new Map();
  const pages = tx.objectStore("pages");
  const near = (await pages.getAllKeys()).filter(([from, to]) => from <= last && to >= first);
  const found = await Promise.all(near.map((key) => pages.get(key)));
  const names = new Set(wanted);
  const records = found.flatMap(recordsOf);
  return new Map(records.flatMap((one) => (names.has(one.id) ? [[one.id, one] as const] : [])));
}

/** Return what lies in pages, a page at a time: all of it at once would hold up a tap. */
export async function allPaged(tx: ReadPages): Promise<EntryRecord[]> {
  const pages = tx.objectStore("pages");
  const keys = await pages.getAllKeys();
  const found = await Promise.all(keys.map(async (key) => recordsOf(await pages.get(key))));
  return found.flat();
}

// Text: it is read twice as fast as what a browser makes of objects.
const recordsOf = (page: PageRecord | undefined): EntryRecord[] => (page ? JSON.parse(page.records) : []);

/** Return a page of records. */
export function pageOf(records: EntryRecord[]): PageRecord {
  const in_order = [...records].sort((one, other) => (one.id < other.id ? -1 : 1));
  return {
    first: in_order[0]?.id ?? "",
    last: in_order.at(-1)?.id ?? "",
    count: records.length,
    records: JSON.stringify(in_order),
  };
}
