/** Entries on this phone: written once, kept for good; only where each one is changes. */

import type { Entry, EntryOf, Kind, Problem } from "../kit/api";
import { saysTheSame } from "../kit/signing";
import { isWithheld } from "../report/withheld";
import { noteSaid, type Said } from "./current";
import { type Db, type EntryRecord, type Write, write } from "./db";
import { addEntry, addPage, putEntry, updateEntry } from "./held";
import { nextArrival, readMeta } from "./meta";
import { allPaged, dropPages, FEWEST, paged, readUpto, writeUpto } from "./pages";

/** An entry before the store has given it its number. */
export type NewEntry = { [K in Kind]: Omit<EntryOf<K>, "seq"> }[Kind];

/**
 * Write entries made on this phone, all or none; returns them with their `seq`, once they are on the disk.
 *
 * The device's counter moves in the same transaction, so that no number is used twice, whatever tab or crash; the
 * photos they name leave their drafts in it, too. Errors: QuotaExceededError where the phone is full.
 */
export function addEntries(db: Db, drafts: NewEntry[], held_at: string): Promise<Entry[]> {
  return write(db, ["entries", "seq", "meta", "photos"], async (tx) => {
    const written: Entry[] = [];
    for (const draft of drafts) {
      written.push(withSeq(draft, await nextSeq(tx as unknown as Write<"seq">, draft.device)));
    }
    await putEntries(tx as unknown as Write<"entries" | "meta" | "photos">, written, held_at);
    return written;
  });
}

/** Put entries that were made here into the store, inside the transaction that gives them their numbers. */
export async function putEntries(
  tx: Write<"entries" | "meta" | "photos">,
  written: Entry[],
  held_at: string,
): Promise<void> {
  const arrival = await nextArrival(tx as unknown as Write<"meta">);
  for (const entry of written) {
    await addEntry(tx as unknown as Write<"entries">, record(entry, true, held_at, arrival));
    await releasePhotos(tx as unknown as Write<"photos">, entry);
  }
}

async function nextSeq(tx: Write<"seq">, device: string): Promise<number> {
  const seq = ((await tx.objectStore("seq").get(device)) ?? 0) + 1;
  await tx.objectStore("seq").put(seq, device);
  return seq;
}

/** Return an entry with its number. */
export function withSeq(draft: NewEntry, seq: number): Entry {
  const { data, person, ...head } = draft;
  return { ...head, seq, person, data } as Entry;
}

function record(entry: Entry, mine: boolean, held_at: string, arrival: number): EntryRecord {
  const sending = mine ? "waiting" : "sent";
  return { id: entry.id, entry, mine, sending, problem: null, held_at, arrival };
}

async function releasePhotos(tx: Write<"photos">, entry: Entry): Promise<void> {
  for (const photo of photosOf(entry)) {
    const held = await tx.objectStore("photos").get(photo);
    if (held?.sending === "draft") {
      await tx.objectStore("photos").put({ ...held, sending: "waiting", device: entry.device });
    }
  }
}

/** Return the photos that an entry names: a report's, a linked one, a walk's views and signatures; or its voice note. */
export function photosOf(entry: Entry): string[] {
  if (entry.kind === "photo.linked") return [entry.data.photo];
  if (entry.kind === "voice.linked") return [entry.data.voice];
  if (entry.kind === "handover.signed") {
    const named = [...(entry.data.photos ?? []), ...(entry.data.signed ?? [])];
    return named.flatMap((one) => (one.photo ? [one.photo] : []));
  }
  return entry.kind === "report.filed" || entry.kind === "report.amended" ? (entry.data.photos ?? []) : [];
}

/** What a server said to a batch, and what else it had. */
export interface Settled {
  log_id: string;
  cursor: number;
  accepted: string[];
  rejected: { id: string; problem: Problem }[];
  heard: Entry[];
  /**
   * The server's log is not the one that this phone knew: all that it holds must go out again. What such a server
   * refuses counts for nothing yet, since it may lack the set-ups and devices that a manager's phone brings.
   */
  new_log: boolean;
  /** Whose cursor it is, where each device of this phone has its own. */
  device?: string;
  /** Absent where this is no sync's answer. */
  said?: Said | null;
  /** What was asked for that is withheld here; null where nothing is, as far as was known. */
  lacking?: Lacking | null;
}

/** Entries withheld here that somebody may be shown. sight: names what that person sees; `more`: others are to follow. */
export interface Lacking {
  sight: string;
  ids: string[];
  more: boolean;
}

/** Keep a server's answer in one transaction; returns whether any entry changed. */
export async function settle(db: Db, settled: Settled, held_at: string): Promise<boolean> {
  const { accepted, heard, new_log } = settled;
  const rejected = new_log ? [] : settled.rejected;
  const changed = new_log || accepted.length + rejected.length + heard.length > 0;
  const decided = !new_log && (await isDecided(db, settled.said));
  // A round without news leaves the entries' mark as it is.
  const stores: ("answers" | "entries" | "photos" | "meta")[] = changed
    ? ["answers", "entries", "photos", "meta"]
    : decided
      ? ["entries", "meta"]
      : ["meta"];
  // Seldom: another log. Asked for before the transaction, which waits for nothing else.
  const before = new_log ? await import("./shut_outs") : null;
  return write(db, stores, async (tx) => {
    await before?.keepLastNumbers(tx as unknown as Write<"entries" | "meta" | "answers">);
    if (new_log) await allWaiting(tx as unknown as Write<"entries" | "photos">);
    const news = { ...settled, rejected };
    if (decided) await notKeptAgain(tx as unknown as Write<"entries">);
    if (changed) await changeEntries(tx as unknown as Write<"entries" | "meta">, news, held_at);
    await noteSight(tx as unknown as Write<"meta">, settled);
    if (new_log) await tx.objectStore("meta").put(null, "brought_to");
    await keepCursor(tx as unknown as Write<"meta">, settled);
    await tx.objectStore("meta").put(held_at, "last_heard");
    const { said, cursor } = settled;
    if (said !== undefined) await noteSaid(tx as unknown as Write<"meta">, said, cursor, new_log);
    return changed;
  });
}

// What somebody else of this phone, or the same person in another role, may see is asked for again.
async function noteSight(tx: Write<"meta">, { lacking, heard }: Settled): Promise<void> {
  const meta = tx.objectStore("meta");
  if (lacking) {
    await meta.put(lacking.more ? "" : lacking.sight, "sight");
    await meta.put(lacking.more ? (lacking.ids.at(-1) ?? "") : "", "sight_upto");
  } else if (heard.some(isWithheld) && (await meta.get("sight"))) {
    await meta.put("", "sight");
  }
}

async function keepCursor(tx: Write<"meta">, { log_id, device, cursor, new_log }: Settled): Promise<void> {
  const before = (await readUpto(tx)).cursors;
  const own = device ? { ...(!new_log && before), [device]: cursor } : {};
  await writeUpto(tx, { log_id, cursor, cursors: device || new_log ? own : before });
}

async function changeEntries(tx: Write<"entries" | "meta">, settled: Settled, held_at: string): Promise<void> {
  const arrival = await nextArrival(tx as unknown as Write<"meta">);
  const into = tx as unknown as Write<"entries">;
  const entries = into.objectStore("entries");
  for (const id of settled.accepted) {
    const held = await entries.get(id);
    if (held) await putEntry(into, { ...held, sending: "sent", problem: null, arrival });
  }
  for (const { id, problem } of settled.rejected) {
    const held = await entries.get(id);
    if (held) await putEntry(into, { ...held, sending: "attention", problem, arrival });
  }
  await hear(into, settled.heard, held_at, arrival);
}

async function hear(tx: Write<"entries">, heard: Entry[], held_at: string, arrival: number): Promise<void> {
  const here = await idsHere(tx, heard);
  const fresh = new Map(heard.filter(({ id }) => !here.has(id)).map((entry) => [entry.id, entry]));
  const records = [...fresh.values()].map((entry) => heardRecord(entry, held_at, arrival));
  const whole = records.filter((one) => one.sending === "sent");
  const asPage = whole.length >= FEWEST;
  if (asPage) await addPage(tx as unknown as Write<"meta">, whole);
  await Promise.all(records.map((one) => !(asPage && one.sending === "sent") && addEntry(tx, one)));
  for (const entry of heard) if (here.has(entry.id)) await hearAgain(tx, entry, held_at, arrival);
}

// Names begin with the time: those of a page lie close together, and one question finds which of them are here.
async function idsHere(tx: Write<"entries">, heard: Entry[]): Promise<Set<string>> {
  const ids = heard.map(({ id }) => id).sort();
  const [first, last] = [ids[0], ids.at(-1)];
  if (first === undefined || last === undefined) return new Set();
  const loose = await tx.objectStore("entries").getAllKeys(IDBKeyRange.bound(first, last));
  return new Set([...loose, ...(await paged(tx as unknown as Write<"meta">, ids)).keys()]);
}

function heardRecord(entry: Entry, held_at: string, arrival: number): EntryRecord {
  const fresh = record(entry, false, held_at, arrival);
  return isWithheld(entry) ? { ...fresh, sending: "withheld" } : fresh;
}

async function hearAgain(tx: Write<"entries">, entry: Entry, held_at: string, arrival: number): Promise<void> {
  const held = await tx.objectStore("entries").get(entry.id);
  // In a page lies only what is in the log.
  if (!held) return;
  if (isWithheld(entry)) {
    // Refused before, and now one of its name is in the log: sent once more, and the server says whether it is this.
    if (held.sending === "attention") await putEntry(tx, { ...held, sending: "waiting", problem: null, arrival });
  } else if (held.sending === "withheld") await putEntry(tx, record(entry, false, held_at, arrival));
  // What was refused before is in the log now: its key or set-up came, or a manager accepted it.
  else if (held.sending !== "sent" && saysTheSame(held.entry, entry)) {
    await putEntry(tx, { ...held, sending: "sent", problem: null, arrival });
  }
}

// What a server had no room to set aside is sent again once something that it set aside was decided on.
async function isDecided(db: Db, said: Said | null | undefined): Promise<boolean> {
  const before = await readMeta(db, "versions");
  if (!said || !before || before.set_aside === said.set_aside) return false;
  return (await db.countFromIndex("entries", "sending", "attention")) > 0;
}

async function notKeptAgain(tx: Write<"entries">): Promise<void> {
  for await (const cursor of tx.objectStore("entries").index("sending").iterate("attention")) {
    const isNotKept = cursor.value.problem?.type.endsWith("/set-aside-full");
    if (isNotKept) await updateEntry(tx, cursor, { ...cursor.value, sending: "waiting", problem: null });
  }
}

async function allWaiting(tx: Write<"entries" | "photos">): Promise<void> {
  for await (const cursor of tx.objectStore("entries").iterate()) {
    if (cursor.value.sending === "withheld") continue;
    const held = tx as unknown as Write<"entries">;
    await updateEntry(held, cursor, { ...cursor.value, sending: "waiting", problem: null });
  }
  await unpack(tx as unknown as Write<"entries" | "meta">);
  for await (const cursor of tx.objectStore("photos").iterate()) {
    if (cursor.value.sending !== "draft") await cursor.update({ ...cursor.value, sending: "waiting", problem: null });
  }
}

async function unpack(tx: Write<"entries" | "meta">): Promise<void> {
  const records = await allPaged(tx as unknown as Write<"meta">);
  const into = tx as unknown as Write<"entries">;
  const single = new Set(await into.objectStore("entries").getAllKeys());
  const moved = records.filter((one) => !single.has(one.id));
  await Promise.all(moved.map((one) => addEntry(into, { ...one, sending: "waiting", problem: null })));
  await dropPages(tx as unknown as Write<"meta">);
}

/** Return what is still to be sent, each device's in the order of its counter. */
export async function waitingEntries(db: Db): Promise<Entry[]> {
  const waiting = await db.getAllFromIndex("entries", "sending", "waiting");
  const entries = waiting.map((held) => held.entry);
  return entries.sort((a, b) => (a.device === b.device ? a.seq - b.seq : a.device < b.device ? -1 : 1));
}

export { entriesHere } from "./held";

/** Return how many entries that lie by themselves are in a state, of any event: all but what has been sent do. */
export function countEntries(db: Db, sending: "waiting" | "attention" | "sent"): Promise<number> {
  return db.countFromIndex("entries", "sending", sending);
}

/** Return one entry, or undefined. */
export async function entryById(db: Db, id: string): Promise<Entry | undefined> {
  const tx = db.transaction(["entries", "meta"]);
  const record = (await tx.objectStore("entries").get(id)) ?? (await paged(tx, [id])).get(id);
  return record?.entry;
}
