/** Fetches what the server has worked out: set-up, a car's queue, its costs. */

import type { AnswerRecord, Db } from "../store/db";
import { answerRecord, costsKey, keepAnswer, queueKey, SETUP_KEY } from "../store/answers";
import { readMeta, writeMeta } from "../store/meta";
import { call, type Fetch, isObject } from "./wire";

interface Deps {
  db: Db;
  fetch: Fetch;
  now: () => number;
}

/** What became of asking: a new answer, the one held still stands, refused by role or token, or no server. */
export type Asked = "new" | "same" | "refused" | "unreachable";

/** Fetch the set-up of all events that a token may see. */
export function fetchSetup(deps: Deps, token: string): Promise<Asked> {
  const isSetup = (body: Record<string, unknown>) => Array.isArray(body.events);
  return fetchAnswer(deps, token, "/setup", SETUP_KEY, isSetup);
}

/** Fetch a car's queue. */
export function fetchQueue(deps: Deps, token: string, event: string, car: string): Promise<Asked> {
  const path = `/events/${encodeURIComponent(event)}/cars/${encodeURIComponent(car)}/queue`;
  const isQueue = (body: Record<string, unknown>) =>
    body.event === event && body.car === car && Array.isArray(body.jobs) && typeof body.release === "string";
  return fetchAnswer(deps, token, path, queueKey(event, car), isQueue);
}

/** Fetch a car's cost sheet. */
export function fetchCosts(deps: Deps, token: string, event: string, car: string): Promise<Asked> {
  const path = `/events/${encodeURIComponent(event)}/costs?car=${encodeURIComponent(car)}`;
  const isCosts = (body: Record<string, unknown>) => body.event === event && Array.isArray(body.lines);
  return fetchAnswer(deps, token, path, costsKey(event, car), isCosts);
}

async function fetchAnswer(
  deps: Deps,
  token: string,
  path: string,
  key: string,
  isRight: (body: Record<string, unknown>) => boolean,
): Promise<Asked> {
  const held = await answerRecord(deps.db, key);
  // Counted before asking: an entry that arrives meanwhile may not be in the answer.
  const arrivals = await readMeta(deps.db, "arrivals");
  const reply = await call(deps.fetch, { method: "GET", path, token, etag: held?.etag ?? null });
  const heard = { key, heard_at: new Date(deps.now()).toISOString(), arrivals };
  if (reply.kind === "same" && held) return keep(deps, { ...held, ...heard }, "same");
  if (reply.kind === "ok" && isObject(reply.body) && isRight(reply.body)) {
    return keep(deps, { ...heard, answer: reply.body, etag: reply.etag }, "new");
  }
  return reply.kind === "problem" ? "refused" : "unreachable";
}

async function keep(deps: Deps, record: AnswerRecord, asked: Asked): Promise<Asked> {
  await keepAnswer(deps.db, record);
  await writeMeta(deps.db, "last_heard", record.heard_at);
  return asked;
}
