/** The server's last answers, for when there is none. */

import type { Costs, Passes, Queue, Setup, SetupFiles, Statements } from "../kit/api";
import type { Cached } from "../report/local_entry";
import type { AnswerRecord, Db } from "./db";

/** Names of answers. */
export const SETUP_KEY = "setup";
export const queueKey = (event: string, car: string) => `queue ${JSON.stringify([event, car])}`;
export const costsKey = (event: string, car: string) => `costs ${JSON.stringify([event, car])}`;
export const passesKey = (event: string, car: string) => `passes ${JSON.stringify([event, car])}`;
export const statementsKey = (event: string, car: string) => `statements ${JSON.stringify([event, car])}`;

export const livesKey = (event: string, car: string) => `lives ${JSON.stringify([event, car])}`;

const FILES = "files ";
export const filesKey = (event: string) => FILES + JSON.stringify(event);

/** Keep an answer. */
export async function keepAnswer(db: Db, record: AnswerRecord): Promise<void> {
  await db.put("answers", record);
}

/** Return an answer as it was kept, or null. */
export async function answerRecord(db: Db, key: string): Promise<AnswerRecord | null> {
  return (await db.get("answers", key)) ?? null;
}

/** Return the last set-up heard. */
export function setupHere(db: Db): Promise<Cached<Setup> | null> {
  return heard<Setup>(db, SETUP_KEY);
}

/** Return the last queue heard of a car. */
export function queueHere(db: Db, event: string, car: string): Promise<Cached<Queue> | null> {
  return heard<Queue>(db, queueKey(event, car));
}

/** Return the last heard of a car's passes that do not count. */
export function passesHere(db: Db, event: string, car: string): Promise<Cached<Passes> | null> {
  return heard<Passes>(db, passesKey(event, car));
}

/** Return the last cost sheet heard of a car. */
export function costsHere(db: Db, event: string, car: string): Promise<Cached<Costs> | null> {
  return heard<Costs>(db, costsKey(event, car));
}

/** Return the last statements heard of a car. */
export function statementsHere(db: Db, event: string, car: string): Promise<Cached<Statements> | null> {
  return heard<Statements>(db, statementsKey(event, car));
}

/** Return the set-up files of each event that a manager of this phone fetched. */
export async function filesHere(db: Db): Promise<[event: string, files: SetupFiles][]> {
  const records = await db.getAll("answers", IDBKeyRange.bound(FILES, `${FILES}\uffff`));
  return records.map(({ key, answer }) => [JSON.parse(key.slice(FILES.length)), answer as SetupFiles]);
}

/** Return the last answer heard under a key, or null. */
export async function heard<T>(db: Db, key: string): Promise<Cached<T> | null> {
  const record = await answerRecord(db, key);
  if (!record) return null;
  return { answer: record.answer as T, heard_at: record.heard_at, arrivals: record.arrivals };
}
