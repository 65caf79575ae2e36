/** Which of the server's answers kept here are still what it would answer, so that nobody asks for them again. */

import { answerRecord, keepAnswer } from "./answers";
import type { AnswerRecord, Db, Write } from "./db";
import { countEntries } from "./entries";
import { readMeta, writeMeta } from "./meta";
import { readUpto } from "./pages";

/** What a server says of its set-ups and of what it set aside: names that are the same or are not. */
export interface Versions {
  setup: string;
  set_aside: string;
}

/** Where a server was when an answer was asked for. */
export interface AsOf extends Versions {
  cursor: number;
}

/** A car of an event. */
export interface CarOf {
  event: string;
  car: string;
}

/** What a sync said of versions, and of the cars that its entries change; null from a server of 0.1.0. */
export interface Said extends Versions {
  cars: CarOf[];
}

const nameOf = ({ event, car }: CarOf) => JSON.stringify([event, car]);

/** Keep what a sync said, inside the transaction that takes it in. `cursor`: up to where its entries go. */
export async function noteSaid(tx: Write<"meta">, said: Said | null, cursor: number, new_log: boolean): Promise<void> {
  const meta = tx.objectStore("meta");
  await meta.put(said && { setup: said.setup, set_aside: said.set_aside }, "versions");
  if (!said || (said.cars.length === 0 && !new_log)) return;
  const before = new_log ? {} : ((await meta.get("changed_cars")) as Record<string, number> | undefined);
  const now = Object.fromEntries(said.cars.map((one) => [nameOf(one), cursor]));
  await meta.put({ ...before, ...now }, "changed_cars");
}

/** Return where the server is as far as this phone was told, null where it says nothing of it. */
export async function asOf(db: Db): Promise<AsOf | null> {
  const versions = await readMeta(db, "versions");
  return versions && { ...versions, cursor: (await readUpto(db.transaction("meta"))).cursor };
}

/** Say whether the phone was told all that a server's news are about. */
export async function knows(db: Db, news: AsOf): Promise<boolean> {
  const here = await asOf(db);
  // The news are the same for all: what comes after the point says what this person is shown.
  const shared = here && { ...here, setup: here.setup.replace(/\..*/, "") };
  return isSame(shared, news) && shared.cursor >= news.cursor && !(await readMeta(db, "unreachable"));
}

/**
 * Say whether the set-up under a key is the server's: its tag is the version.
 *
 * known: as it was read last, if it was; a set-up is long, and not read again only to look at its tag.
 */
export async function isSetupCurrent(db: Db, key: string, known: AnswerRecord | null = null): Promise<boolean> {
  const versions = await readMeta(db, "versions");
  const isOf = (record: AnswerRecord | null) =>
    versions !== null && record?.etag?.replace(/^W\//, "") === `"${versions.setup}"`;
  return isOf(known) || isOf(await answerRecord(db, key));
}

/** Say whether an answer under a key, of a car or of none, is still what the server would say. */
export async function isCurrent(db: Db, key: string, of: CarOf | null): Promise<boolean> {
  const held = (await answerRecord(db, key))?.as_of ?? null;
  if (!isSame(held, await readMeta(db, "versions"))) return false;
  const changed = await readMeta(db, "changed_cars");
  return of === null || (changed[nameOf(of)] ?? 0) <= held.cursor;
}

/**
 * Note that an answer kept here still holds: entries that came up to `arrivals`, counted before it was asked whether it
 * does, are of others. With something unsent it stays as it is: the server does not know of that.
 */
export async function confirm(db: Db, key: string, arrivals: number, heard_at: string): Promise<void> {
  const held = await answerRecord(db, key);
  if (!held || held.arrivals >= arrivals || (await countEntries(db, "waiting")) > 0) return;
  await keepAnswer(db, { ...held, heard_at, arrivals });
  await writeMeta(db, "last_heard", heard_at);
}

function isSame<One extends Versions>(one: One | null, other: Versions | null): one is One {
  return one !== null && one.setup === other?.setup && one.set_aside === other.set_aside;
}
