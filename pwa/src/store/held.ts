/**
 * Entries as a tab read them last, brought forward by what was written since: for one new entry nobody reads a season.
 *
 * Each transaction that may write entries leaves a mark of its own, and beside it which entries it put. Who read the
 * store at one mark comes to the next by those alone; where that is not known, as after an older app wrote, all is read.
 */

import { bring, placeOf } from "../kit/growing";
import { pausesFor } from "../kit/pauses";
import type { LocalEntry } from "../report/local_entry";
import { idOfHeld } from "../report/lists";
import type { IDBPTransaction } from "idb";
import type { Db, EntryRecord, ShuntbookDb, Write } from "./db";
import { pageTexts, putPage, recordsIn } from "./pages";

/** Changes with every transaction that may write entries, of any tab: as long as it is the same, so are they. */
const MARK = "entries_mark";
const STEPS = "entries_steps";

/** So many ids and steps are kept of the last transactions together: whoever is further behind reads all. */
const MOST_IDS = 500;

/** Read at a time: more would hold up a tap. */
const PORTION = 500;

/** From one mark to the next. `ids`: the entries that were put. */
interface Step {
  from: unknown;
  to: string;
  ids: string[];
}

/** A step of this tab, with what it put. */
interface OwnStep extends Step {
  records: EntryRecord[];
}

/** What was read last of a store: its mark then, and the entries in the order of their ids. */
interface Read {
  mark: unknown;
  held: LocalEntry[];
}

/** Records, or the text of a page of them. */
type Portion = string | EntryRecord[];

const lastRead = new WeakMap<Db, Read>();
const told = new WeakMap<object, EntryRecord[]>();
const ownSteps = new WeakMap<Db, OwnStep[]>();

/** Add the record of an entry that is not here. Only what follows here writes entries. */
export async function addEntry(tx: Write<"entries">, record: EntryRecord): Promise<void> {
  tell(tx, record);
  await tx.objectStore("entries").add(record);
}

/** Put a record of an entry in the place of the one that is here. */
export async function putEntry(tx: Write<"entries">, record: EntryRecord): Promise<void> {
  tell(tx, record);
  await tx.objectStore("entries").put(record);
}

/** Add a page of entries that are not here. */
export async function addPage(tx: Write<"meta">, records: EntryRecord[]): Promise<void> {
  for (const record of records) tell(tx, record);
  await putPage(tx, records);
}

/** Move records that lie by themselves into a page, so many at a time. What is read stays as it is: nothing to tell. */
export async function moveToPage(tx: Write<"entries">, records: EntryRecord[], at_a_time: number): Promise<void> {
  if (records.length === 0) return;
  await putPage(tx as unknown as Write<"meta">, records);
  for (let at = 0; at < records.length; at += at_a_time) {
    await Promise.all(records.slice(at, at + at_a_time).map(({ id }) => tx.objectStore("entries").delete(id)));
  }
}

/** Change the record under a cursor. */
export async function updateEntry(
  tx: Write<"entries">,
  cursor: { update(record: EntryRecord): Promise<unknown> },
  record: EntryRecord,
): Promise<void> {
  tell(tx, record);
  await cursor.update(record);
}

function tell(tx: object, record: EntryRecord): void {
  const records = told.get(tx);
  if (records) records.push(record);
  else told.set(tx, [record]);
}

/** Leave a mark, as the last that a transaction does; returns what to call once it is on the disk. */
export async function mark(db: Db, tx: Write<"meta">): Promise<() => void> {
  const meta = tx.objectStore("meta");
  const [from, before] = await Promise.all([meta.get(MARK), meta.get(STEPS)]);
  const records = told.get(tx) ?? [];
  const step: Step = { from, to: freshMark(), ids: records.map((one) => one.id) };
  const earlier = (before as Step[] | undefined) ?? [];
  await Promise.all([meta.put(latest([...earlier, step]), STEPS), meta.put(step.to, MARK)]);
  return () => {
    if (lastRead.has(db)) ownSteps.set(db, [...(ownSteps.get(db) ?? []), { ...step, records }]);
  };
}

// Not crypto.randomUUID, which a page over plain http does not have.
const freshMark = () => crypto.getRandomValues(new Uint32Array(4)).join("-");

function latest(steps: Step[]): Step[] {
  let ids = 0;
  const first = steps.findLastIndex((step) => {
    ids += 1 + step.ids.length;
    return ids > MOST_IDS;
  });
  return steps.slice(first + 1);
}

/**
 * Return every entry on this phone, of all events, as the screens see them.
 *
 * While nobody wrote, the very same list, which nobody may change; after that an entry that did not change is the same
 * object, so that what was worked out from it need not be again.
 */
export async function entriesHere(db: Db): Promise<LocalEntry[]> {
  const tx = db.transaction(["entries", "meta"]);
  const now: unknown = await tx.objectStore("meta").get(MARK);
  const last = lastRead.get(db);
  if (last && now !== undefined && last.mark === now) return last.held;
  const steps = ((await tx.objectStore("meta").get(STEPS)) as Step[] | undefined) ?? [];
  const own = ownSteps.get(db) ?? [];
  const way = last ? wayTo(now, last.mark, steps, own) : null;
  const put = way && (await Promise.all(way.ids.map((id) => tx.objectStore("entries").get(id))));
  // What lies in a page is found by reading all.
  const changed = way && put?.every((one) => one !== undefined) ? [...way.records, ...put] : null;
  const read = last && changed ? broughtOn(last, changed, now) : await readFrom(await allPortions(tx), last, now);
  lastRead.set(db, read);
  // What was written while all was read is the way on from here.
  ownSteps.set(
    db,
    (ownSteps.get(db) ?? []).filter((step) => !own.includes(step)),
  );
  return read.held;
}

/** Return what was put between two marks, as records where this tab put it, else by id; null where that is not known. */
function wayTo(now: unknown, from: unknown, steps: Step[], own: OwnStep[]) {
  const records = new Map<string, EntryRecord>();
  const ids = new Set<string>();
  for (let at = from; at !== now; ) {
    const mine = own.find((step) => step.from === at);
    const step = mine ?? steps.find((one) => one.from === at);
    // A store without a mark is one that an app wrote which leaves none.
    if (at === undefined || !step) return null;
    for (const id of step.ids) {
      records.delete(id);
      ids.add(id);
    }
    for (const record of mine?.records ?? []) {
      records.set(record.id, record);
      ids.delete(record.id);
    }
    at = step.to;
  }
  return { records: [...records.values()], ids: [...ids] };
}

function broughtOn(last: Read, changed: EntryRecord[], now: unknown): Read {
  const changes = changed.map((record) => {
    const there = last.held[placeOf(last.held, record.id, idOfHeld)];
    const was = there?.entry.id === record.id ? there : undefined;
    return { was, now: asBefore(was, heldOf(record)) };
  });
  const held = bring(
    last.held,
    changes.filter((one) => one.was !== one.now),
    idOfHeld,
  );
  return { mark: now, held };
}

const named = (held: LocalEntry[]) => new Map(held.map((one) => [one.entry.id, one]));
const byId = (one: LocalEntry, other: LocalEntry) =>
  one.entry.id < other.entry.id ? -1 : one.entry.id > other.entry.id ? 1 : 0;

/** A portion of all records at a time, so that a tap is answered in between. Only what is not here yet is made anew. */
async function readFrom(portions: Portion[], last: Read | undefined, now: unknown): Promise<Read> {
  const before = last && named(last.held);
  const pause = pausesFor(portions.length * PORTION);
  const held: LocalEntry[] = [];
  for (const portion of portions) {
    const records = typeof portion === "string" ? recordsIn(portion) : portion;
    for (const one of records) held.push(asBefore(before?.get(one.id), heldOf(one)));
    await pause();
  }
  held.sort(byId);
  // What an older app heard again lies in both places: by itself it comes last, and its state is the one that counts.
  return { mark: now, held: held.filter((one, at) => one.entry.id !== held[at + 1]?.entry.id) };
}

async function allPortions(tx: IDBPTransaction<ShuntbookDb, ("entries" | "meta")[]>): Promise<Portion[]> {
  const portions: Portion[] = await pageTexts(tx);
  for (let from: IDBKeyRange | null = null; ; ) {
    const portion: EntryRecord[] = await tx.objectStore("entries").getAll(from, PORTION);
    portions.push(portion);
    const end = portion[PORTION - 1];
    if (!end) return portions;
    from = IDBKeyRange.lowerBound(end.id, true);
  }
}

const heldOf = ({ entry, mine, sending, problem, held_at, arrival }: EntryRecord): LocalEntry => {
  return { entry, mine, sending: sending === "withheld" ? "sent" : sending, problem, held_at, arrival };
};

// Entries never change; a signature comes later, and each other change of where one is has an arrival or another state.
function asBefore(before: LocalEntry | undefined, now: LocalEntry): LocalEntry {
  const is_same =
    before?.arrival === now.arrival &&
    before.sending === now.sending &&
    before.held_at === now.held_at &&
    before.problem === null &&
    now.problem === null &&
    before.entry.sig === now.entry.sig;
  if (before && is_same) return before;
  // What is only somewhere else now says the same: the very entry, so that nothing is worked out of it again.
  const says_same = before && JSON.stringify(before.entry) === JSON.stringify(now.entry);
  return says_same ? { ...now, entry: before.entry } : now;
}
