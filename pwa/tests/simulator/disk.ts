/** A phone's disk: a real IndexedDB in memory, which can be full, and can be looked at past every transaction. */

import { IDBFactory, IDBObjectStore } from "fake-indexeddb";
import type { EntryRecord, ShuntbookDb } from "../../src/store/db";
import { queueStep } from "./clockwork";

const NAME = "shuntbook";

/** Whose connections are closed when it ends. */
interface Holder {
  isAlive: boolean;
}

interface Connection {
  _closePending: boolean;
  _closed: boolean;
}

interface Raw {
  connections: Connection[];
  transactions: (IDBTransaction & { _state: string; _abort(why: string): void })[];
  rawObjectStores: Map<
    string,
    { records: { values(): Iterable<{ value: unknown }>; get(key: unknown): { value: unknown } | undefined } }
  >;
}

export class Disk {
  readonly factory = new IDBFactory();
  full = false;

  constructor() {
    disks.set(this, null);
  }

  /** The database itself. */
  raw(): Raw | undefined {
    return (this.factory as unknown as { _databases: Map<string, Raw> })._databases.get(NAME);
  }

  /** Return what a page opens its database by. */
  openedBy(page: Holder): { open: IDBFactory["open"] } {
    const open = (name: string, version?: number) => {
      if (!page.isAlive) throw new DOMException("the page has ended", "InvalidStateError");
      return this.factory.open(name, version);
    };
    return { open };
  }

  /** End what is being written, as when the power goes: of each transaction all is there, or nothing. */
  cut(): void {
    const raw = this.raw();
    for (const one of [...(raw?.transactions ?? [])]) if (one._state !== "finished") one._abort("AbortError");
    for (const one of raw?.connections.splice(0) ?? []) {
      one._closePending = true;
      one._closed = true;
    }
  }

  /** Say whether nothing is being written or read. */
  isAtRest(): boolean {
    return (this.raw()?.transactions ?? []).every((one) => one._state === "finished");
  }

  all<Store extends keyof ShuntbookDb & string>(store: Store): unknown[] {
    const records = this.raw()?.rawObjectStores.get(store)?.records;
    return records ? Array.from(records.values(), (one) => one.value) : [];
  }

  entries(): EntryRecord[] {
    return this.all("entries") as EntryRecord[];
  }

  meta(name: string): unknown {
    return this.raw()?.rawObjectStores.get("meta")?.records.get(name)?.value;
  }

  answer(key: string): unknown {
    const held = this.raw()?.rawObjectStores.get("answers")?.records.get(key)?.value as { answer: unknown } | undefined;
    return held?.answer;
  }
}

const disks = new Map<Disk, null>();

/** Let go of the disks of a history. */
export function forgetDisks(): void {
  disks.clear();
}

// A full disk is noticed when a transaction is to be kept: all of it is undone then, with a QuotaExceededError.
const put = IDBObjectStore.prototype.put;
const add = IDBObjectStore.prototype.add;
for (const [name, write] of Object.entries({ put, add })) {
  IDBObjectStore.prototype[name as "put" | "add"] = function (this: IDBObjectStore, ...given: [unknown, IDBValidKey?]) {
    const request = write.apply(this, given);
    const transaction = this.transaction as globalThis.IDBTransaction & { _state: string; _abort(why: string): void };
    if (isFull(transaction))
      queueStep(() => transaction._state === "finished" || transaction._abort("QuotaExceededError"));
    return request;
  };
}

function isFull(transaction: IDBTransaction): boolean {
  const raw = (transaction.db as unknown as { _rawDatabase: Raw })._rawDatabase;
  for (const disk of disks.keys()) if (disk.full && disk.raw() === raw) return true;
  return false;
}
