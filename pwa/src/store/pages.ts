/**
 * Pages of entries: what came in many at a time lies together, one record for hundreds, which is put and read at once.
 *
 * In pages are only entries that a server has and this phone did not write: nothing changes of them until another log is
 * met, and then each lies by itself again. Pages lie among the facts, in a store that an app of 0.1 has, too: where a
 * server is put back to that version its app opens what is here. It does not know of pages, so that it has to hear all
 * of it again: for it the phone stands at the beginning of the log as long as there are any (`writeUpto`). What it heard
 * again lies in both places then, and is the same.
 */

import type { EntryRecord, PageKey, PageRecord } from "./db";

/** So few are put one by one: a page costs a reading of all of it where one of its names comes again. */
export const FEWEST = 100;

/** A transaction that may read at least facts. */
export interface ReadMeta {
  objectStore(name: "meta"): {
    getAllKeys(range: IDBKeyRange, most?: number): Promise<unknown[]>;
    get(key: string | PageKey): Promise<unknown>;
  };
}

/** One that may write them. */
export interface WriteMeta extends ReadMeta {
  objectStore(name: "meta"): ReturnType<ReadMeta["objectStore"]> & {
    put(value: unknown, key: string | PageKey): Promise<unknown>;
    delete(key: string | PageKey | IDBKeyRange): Promise<unknown>;
  };
}

// Of arrays those that begin so: a further place is greater than none, and an array greater than any text.
const pages = () => IDBKeyRange.bound(["page"], ["page", []]);

const keysOf = (tx: ReadMeta, most?: number) => tx.objectStore("meta").getAllKeys(pages(), most) as Promise<PageKey[]>;

// Text: it is read twice as fast as what a browser makes of objects.
async function textAt(tx: ReadMeta, key: PageKey): Promise<string> {
  return ((await tx.objectStore("meta").get(key)) as PageRecord | undefined)?.records ?? "[]";
}

const recordsAt = async (tx: ReadMeta, key: PageKey) => recordsIn(await textAt(tx, key));

/** Return the records of a page. */
export const recordsIn = (text: string): EntryRecord[] => JSON.parse(text);

const MANY = 4;

/** Say whether so many pages are here that reading them is felt. */
export const holdsMany = async (tx: ReadMeta): Promise<boolean> => (await keysOf(tx, MANY)).length === MANY;

/** Return those of some entries that lie in pages, by id; only pages that may hold one are read. */
export async function paged(tx: ReadMeta, ids: string[]): Promise<Map<string, EntryRecord>> {
  const wanted = [...ids].sort();
  const [first, last] = [wanted[0], wanted.at(-1)];
  if (first === undefined || last === undefined) return new Map();
  const near = (await keysOf(tx)).filter(([, from, to]) => from <= last && to >= first);
  const found = await Promise.all(near.map((key) => recordsAt(tx, key)));
  const names = new Set(wanted);
  return new Map(found.flat().flatMap((one) => (names.has(one.id) ? [[one.id, one] as const] : [])));
}

/** Return the pages as they lie, for `recordsIn`: read a page at a time, since all of it at once would hold up a tap. */
export async function pageTexts(tx: ReadMeta): Promise<string[]> {
  return Promise.all((await keysOf(tx)).map((key) => textAt(tx, key)));
}

/** Return what lies in pages. */
export async function allPaged(tx: ReadMeta): Promise<EntryRecord[]> {
  return (await pageTexts(tx)).flatMap(recordsIn);
}

/** Put records into a page. What an older app heard again may begin and end as a page that has more: nothing of it goes. */
export async function putPage(tx: WriteMeta, records: EntryRecord[]): Promise<void> {
  const names = records.map((one) => one.id).sort();
  const key: PageKey = ["page", names[0] ?? "", names.at(-1) ?? ""];
  const by_id = new Map([...(await recordsAt(tx, key)), ...records].map((one) => [one.id, one]));
  const in_order = [...by_id.values()].sort((one, other) => (one.id < other.id ? -1 : 1));
  const page: PageRecord = { count: in_order.length, records: JSON.stringify(in_order) };
  await tx.objectStore("meta").put(page, key);
}

/** Forget all pages. */
export async function dropPages(tx: WriteMeta): Promise<void> {
  await tx.objectStore("meta").delete(pages());
}

/** Up to where of which log the entries are here; `cursors`: of each device, where people are in other events. */
export interface Upto {
  log_id: string | null;
  cursor: number;
  cursors: Record<string, number>;
}

/** Return up to where the entries are here. */
export async function readUpto(tx: ReadMeta): Promise<Upto> {
  const meta = tx.objectStore("meta");
  const paged = await meta.get("paged");
  if (paged) return paged as Upto;
  const [log_id, cursor, cursors] = await Promise.all(["log_id", "cursor", "cursors"].map((name) => meta.get(name)));
  return {
    log_id: (log_id as string | undefined) ?? null,
    cursor: Number(cursor ?? 0),
    cursors: (cursors as Upto["cursors"] | undefined) ?? {},
  };
}

/** Keep up to where the entries are here, after the pages of the same transaction. */
export async function writeUpto(tx: WriteMeta, upto: Upto): Promise<void> {
  const meta = tx.objectStore("meta");
  const has_pages = (await keysOf(tx, 1)).length > 0;
  await (has_pages ? meta.put(upto, "paged") : meta.delete("paged"));
  await meta.put(upto.log_id, "log_id");
  await meta.put(has_pages ? 0 : upto.cursor, "cursor");
  await meta.put(has_pages ? {} : upto.cursors, "cursors");
}
