/** Small facts about this phone: where it is in the server's log, when it was last heard, who spoke last. */

import type { Position } from "../kit/api";
import type { Versions } from "./current";
import type { Db, Write } from "./db";

/** What is kept, by name. */
export interface Meta {
  log_id: string | null;
  /** Up to where of that log the entries are here. */
  cursor: number;
  /** The same of each device, where people of this phone are in other events than each other. */
  cursors: Record<string, number>;
  /** Counts each change of an entry here: see LocalEntry.arrival. */
  arrivals: number;
  last_heard: string | null;
  /** The last try of any tab failed. */
  unreachable: boolean;
  /** So did it, since the server fell over it: there is signal. */
  failed: boolean;
  last_person: string | null;
  /** Who speaks in which tab, by its number, the last chosen last. */
  tabs: Record<string, string>;
  last_event: string | null;
  last_car: string | null;
  /** The car that the app was opened with last: chosen, or found among the entries. */
  opened_car: string | null;
  lease: { holder: string; until_ms: number } | null;
  /** The log whose server holds the set-ups and devices that this phone holds: a manager's phone brought them. */
  brought_to: string | null;
  /** What the server's last sync said of its versions; null where it says none. */
  versions: Versions | null;
  /** Who was told, of which event, that passes of an older release count no more: event and person as JSON. */
  passes_told: string[];
  /** Cars (event and car as JSON) with the place in the log up to which their last change goes. */
  changed_cars: Record<string, number>;
  /** Whose sight the entries withheld here were asked for with last, and up to which of them, where more are to be. */
  sight: string;
  sight_upto: string;
}

const DEFAULTS: Meta = {
  log_id: null,
  cursor: 0,
  cursors: {},
  arrivals: 0,
  last_heard: null,
  unreachable: false,
  failed: false,
  last_person: null,
  tabs: {},
  last_event: null,
  last_car: null,
  opened_car: null,
  lease: null,
  brought_to: null,
  versions: null,
  passes_told: [],
  changed_cars: {},
  sight: "",
  sight_upto: "",
};

/** Return one fact. */
export async function readMeta<K extends keyof Meta>(db: Db, name: K): Promise<Meta[K]> {
  return ((await db.get("meta", name)) as Meta[K] | undefined) ?? DEFAULTS[name];
}

/** Keep one fact. */
export async function writeMeta<K extends keyof Meta>(db: Db, name: K, value: Meta[K]): Promise<void> {
  await db.put("meta", value, name);
}

/** Return what a person saw at the last look (see report/fresh), or null. */
export async function readLook(db: Db, person: string, event: string, car: string): Promise<unknown> {
  return (await db.get("meta", lookKey(person, event, car))) ?? null;
}

/** Keep what a person saw. */
export async function writeLook(db: Db, person: string, event: string, car: string, look: unknown): Promise<void> {
  await db.put("meta", look, lookKey(person, event, car));
}

const lookKey = (...parts: string[]) => `look ${JSON.stringify(parts)}`;

/** Return where this phone was when a report was written on it, or null. */
export async function readPosition(db: Db, report: string): Promise<Position | null> {
  return ((await db.get("meta", positionKey(report))) as Position | undefined) ?? null;
}

/** Keep where this phone was. */
export async function writePosition(db: Db, report: string, position: Position): Promise<void> {
  await db.put("meta", position, positionKey(report));
}

const positionKey = (report: string) => `position ${report}`;

/** Count one more change of entries, inside the transaction that makes it; returns the new count. */
export async function nextArrival(tx: Write<"meta">): Promise<number> {
  const meta = tx.objectStore("meta");
  const next = (((await meta.get("arrivals")) as number | undefined) ?? 0) + 1;
  await meta.put(next, "arrivals");
  return next;
}
