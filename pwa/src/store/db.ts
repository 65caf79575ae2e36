/** The phone's own store: what is in it, and how it is opened. */

import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from "idb";
import type { Entry, Problem, Role } from "../kit/api";
import type { PinRecord } from "../kit/pin";
import type { SecondKey } from "../kit/second_key";
import type { DeviceKey } from "../kit/device_key";
import type { Sending } from "../report/local_entry";
import type { AsOf } from "./current";
import { mark } from "./held";

/** An entry as it lies in the store. */
export interface EntryRecord {
  id: string;
  entry: Entry;
  mine: boolean;
  sending: Stored;
  problem: Problem | null;
  held_at: string;
  arrival: number;
}

/** Entries that lie together: see pages.ts. `records`: JSON. */
export interface PageRecord {
  count: number;
  records: string;
}

/** With the least and the greatest id of its entries. */
export type PageKey = ["page", first: string, last: string];

/** `withheld`: the record stands for an entry that nobody of this phone was shown yet. */
type Stored = Sending | "withheld";

/** A photo, named by the SHA-256 of its bytes. `draft` until an entry names it; only then does it go out. */
export interface PhotoRecord {
  photo: string;
  bytes: ArrayBuffer;
  type: string;
  sending: Sending | "draft";
  problem: Problem | null;
  /** The device that sends it; null while in a draft. */
  device: string | null;
  held_at: string;
}

/** A person who joined on this phone, with the secret that lets it speak to the server. */
export interface IdentityRecord {
  device: string;
  person: string;
  name: string;
  roles: Role[];
  events: string[];
  token: string;
  /** SHA-256 of the join code, so that the same link opened again is the same person. */
  code_hash: string;
  joined_at: string;
  /** The server's last answer to the token was 401. */
  refused: boolean;
  /** What this device signs with; absent for who joined with an older app, null where the page could not make one. */
  key?: DeviceKey | null;
  pin?: PinRecord | null;
  /** Signs what the PIN is asked for; absent for who joined without a PIN, or with an older app. */
  second?: SecondKey | null;
}

/** A server's answer kept for when there is none. `arrivals`: the phone's count when it was asked for. */
export interface AnswerRecord {
  key: string;
  answer: unknown;
  etag: string | null;
  heard_at: string;
  arrivals: number;
  /** Where the server was then; absent where it or the app that asked says nothing of it. */
  as_of?: AsOf | null;
}

export interface ShuntbookDb extends DBSchema {
  entries: { key: string; value: EntryRecord; indexes: { sending: Stored } };
  photos: { key: string; value: PhotoRecord; indexes: { sending: Sending | "draft" } };
  answers: { key: string; value: AnswerRecord };
  identities: { key: string; value: IdentityRecord };
  /** device → the last number that it used. */
  seq: { key: string; value: number };
  /** Small facts by name, and pages of entries. */
  meta: { key: string | PageKey; value: unknown };
}
export type Db = IDBPDatabase<ShuntbookDb>;

/** A transaction that may write at least to these stores. */
export type Write<Stores extends StoreNames<ShuntbookDb>> = IDBPTransaction<ShuntbookDb, Stores[], "readwrite">;

/** Every write waits for the disk: relaxed never syncs a photo's file, and strict costs no more. */
export const DURABILITY = { durability: "strict" } as const;

/** Do `work` in one transaction, all or nothing; settles when it is on the disk. Errors: what `work` or the disk says. */
export async function write<Stores extends StoreNames<ShuntbookDb>, Result>(
  db: Db,
  stores: Stores[],
  work: (tx: Write<Stores>) => Promise<Result>,
): Promise<Result> {
  const marks = stores.some((store) => store === "entries");
  const all = marks ? [...new Set([...stores, "meta" as Stores])] : stores;
  const tx = db.transaction(all, "readwrite", DURABILITY);
  // An error that is no failed request (a value that can't be cloned) would let the half that was written stand.
  let onDisk = () => {};
  const marked = async () => {
    const result = await work(tx);
    if (marks) onDisk = await mark(db, tx as unknown as Write<"meta">);
    return result;
  };
  const worked = marked().catch((error: unknown) => {
    abort(tx);
    throw error;
  });
  const [result] = await Promise.all([worked, tx.done]);
  onDisk();
  return result;
}

function abort(tx: { abort(): void }): void {
  try {
    tx.abort();
  } catch (error) {
    // A failed request has aborted it already.
    if (!(error instanceof DOMException && error.name === "InvalidStateError")) throw error;
  }
}

const VERSION = 1;
const REOPEN_MS = 1_000;

/**
 * Open the store. `onBlocking` is called when a newer app version waits for this page to let go of it.
 *
 * A browser ends the connection by itself where the disk fails it, as when the phone is full: it is opened again as soon
 * as that works. What is done in between fails, and can be done again. What the browser then finds torn it leaves out,
 * or it throws all away (`emptied`): `onReopened` fixes the store before anything else reaches it.
 */
export async function openStore(
  name = "shuntbook",
  onBlocking: () => void = () => {},
  onReopened: (db: Db, emptied: boolean) => Promise<void> = async () => {},
): Promise<Db> {
  let emptied = false;
  const open = () =>
    connect(
      name,
      onBlocking,
      () => void again(),
      () => {
        emptied = true;
      },
    );
  let current = await open();
  emptied = false; // The first time of all there was nothing yet.
  const whole = async () => {
    const next = await open();
    await onReopened(next, emptied);
    emptied = false;
    return next;
  };
  const again = async () => {
    for (let next: Db | null = null; next === null; ) {
      next = await whole().catch(notNow);
      if (next) current = next;
      else await new Promise((done) => setTimeout(done, REOPEN_MS));
    }
  };
  return following(() => current);
}

function notNow(error: unknown): null {
  if (error instanceof DOMException) return null;
  throw error;
}

/** Return what is used as the database that is open at the time. */
function following(current: () => Db): Db {
  return new Proxy({} as Db, {
    get(_, name) {
      const db = current();
      const value: unknown = Reflect.get(db, name, db);
      return typeof value === "function" ? value.bind(db) : value;
    },
  });
}

function connect(name: string, onBlocking: () => void, onLost: () => void, onMade: () => void): Promise<Db> {
  return openDB<ShuntbookDb>(name, VERSION, {
    upgrade(db) {
      onMade();
      db.createObjectStore("entries", { keyPath: "id" }).createIndex("sending", "sending");
      db.createObjectStore("photos", { keyPath: "photo" }).createIndex("sending", "sending");
      db.createObjectStore("answers", { keyPath: "key" });
      db.createObjectStore("identities", { keyPath: "device" });
      db.createObjectStore("seq");
      db.createObjectStore("meta");
    },
    blocking(_from, _to, event) {
      (event.target as IDBDatabase).close();
      onBlocking();
    },
    terminated: onLost,
  });
}
