/** Fetches what the server has calculated: set-up, a car's queue. */

import type { Device, EventSetup, Setup } from "../kit/api";
import { answerRecord, keepAnswer, livesKey, queueKey, SETUP_KEY } from "../store/answers";
import { asOf, type CarOf, confirm, isCurrent } from "../store/current";
import type { AnswerRecord, Db } from "../store/db";
import { readMeta, writeMeta } from "../store/meta";
import { call, type Fetch, hasFallenOver, isObject, type Reply } from "./wire";

/** What asking needs. */
export interface Deps {
  db: Db;
  fetch: Fetch;
  now: () => number;
}

/** What became of asking: a new answer, the one held still stands, refused by role or token, or no server. */
export type Asked = "new" | "same" | "refused" | "failed" | "unreachable";

/** Fetch the set-up of all events that a token may see; what a new server lacks stays on this phone. */
export function fetchSetup(deps: Deps, token: string): Promise<Asked> {
  const together = (held: unknown, body: unknown) => mergedSetup(held as Setup | null, body as Setup);
  return fetchAnswer(deps, token, "/setup", SETUP_KEY, isSetup, together);
}

/** Say whether an answer is a set-up. */
export function isSetup(body: unknown): body is Setup {
  return isObject(body) && Array.isArray(body.events) && Array.isArray(body.devices);
}

/** Return a set-up with the events and devices that only the one held before has; who was shut out stays so. */
export function mergedSetup(held: Setup | null, heard: Setup): Setup {
  if (!held) return heard;
  const events = held.events.filter((one) => !heard.events.some((other) => other.event === one.event));
  const before = new Map((held.devices ?? []).map((one) => [one.device, one]));
  const devices = heard.devices.map((one) => {
    const known = before.get(one.device);
    before.delete(one.device);
    return one.shut_out_at === null && known?.shut_out_at ? { ...one, ...shutOutOf(known) } : one;
  });
  const shown = heard.events.map((one) =>
    withKept(
      one,
      held.events.find((other) => other.event === one.event),
    ),
  );
  return { ...heard, events: [...shown, ...events], devices: [...devices, ...before.values()] };
}

// What somebody else of this phone may see, and this person not, stays; who is shown it is the screens' matter.
function withKept(heard: EventSetup, held: EventSetup | undefined): EventSetup {
  const { agreements, rate_table, van } = held ?? {};
  const isSameTable = rate_table?.version === heard.rates;
  return { ...(agreements && { agreements }), ...(isSameTable && { rate_table, van }), ...heard };
}

const shutOutOf = ({ shut_out_at, last_seq }: Device): Partial<Device> =>
  last_seq === undefined ? { shut_out_at } : { shut_out_at, last_seq };

/** Fetch a car's queue. */
export function fetchQueue(deps: Deps, token: string, event: string, car: string): Promise<Asked> {
  const path = `/events/${encodeURIComponent(event)}/cars/${encodeURIComponent(car)}/queue`;
  const isQueue = (body: Record<string, unknown>) =>
    body.event === event && body.car === car && Array.isArray(body.jobs) && typeof body.release === "string";
  return fetchAnswer(deps, token, path, queueKey(event, car), isQueue);
}

/** Fetch which parts of a car are due by their life. */
export function fetchLives(deps: Deps, token: string, { event, car }: CarOf): Promise<Asked> {
  const path = `/events/${encodeURIComponent(event)}/cars/${encodeURIComponent(car)}/lives`;
  const isRight = (body: Record<string, unknown>) =>
    body.event === event && body.car === car && Array.isArray(body.lives);
  return fetchAnswer(deps, token, path, livesKey(event, car), isRight);
}

/** Ask for what is kept under a key, where it is not the server's any more, or `anyway`; null where it still holds. */
export async function askOnce(
  deps: Deps,
  key: string,
  of: CarOf | null,
  anyway: boolean,
  fetching: () => Promise<Asked>,
): Promise<Asked | null> {
  const arrivals = await readMeta(deps.db, "arrivals");
  if (anyway || !(await isCurrent(deps.db, key, of))) return fetching();
  await confirm(deps.db, key, arrivals, new Date(deps.now()).toISOString());
  return null;
}

/** Fetch an answer and keep it under a key; `together` with the one held before. */
export async function fetchAnswer(
  deps: Deps,
  token: string,
  path: string,
  key: string,
  isRight: (body: Record<string, unknown>) => boolean,
  together: (held: unknown, body: unknown) => unknown = (_, body) => body,
): Promise<Asked> {
  const held = await answerRecord(deps.db, key);
  // Counted before asking: an entry that arrives meanwhile may not be in the answer.
  const arrivals = await readMeta(deps.db, "arrivals");
  const as_of = await asOf(deps.db);
  // Where a screen changes while what a Save changed is fetched, both ask for the same: once is enough.
  const reply = await shared(deps.db, JSON.stringify([path, token, arrivals, as_of]), () =>
    call(deps.fetch, { method: "GET", path, token, etag: held?.etag ?? null }),
  );
  const heard = { key, heard_at: new Date(deps.now()).toISOString(), arrivals, as_of };
  if (reply.kind === "same" && held) return keep(deps, held, { ...held, ...heard }, "same");
  if (reply.kind === "ok" && isObject(reply.body) && isRight(reply.body)) {
    return keep(deps, held, { ...heard, answer: together(held?.answer ?? null, reply.body), etag: reply.etag }, "new");
  }
  if (hasFallenOver(reply)) return "failed";
  return reply.kind === "problem" ? "refused" : "unreachable";
}

const calls = new WeakMap<Db, Map<string, Promise<Reply>>>();

/** Call, or wait for the same call that is under way already. */
function shared(db: Db, what: string, calling: () => Promise<Reply>): Promise<Reply> {
  const under_way = calls.get(db) ?? new Map<string, Promise<Reply>>();
  calls.set(db, under_way);
  const called = under_way.get(what) ?? calling().finally(() => under_way.delete(what));
  under_way.set(what, called);
  return called;
}

/** Keep an answer. held: what was here before it was asked for. */
async function keep(deps: Deps, held: AnswerRecord | null, record: AnswerRecord, asked: Asked): Promise<Asked> {
  // What was asked for after this, and came before it, is newer.
  const kept = await answerRecord(deps.db, record.key);
  if (kept && kept.arrivals > Math.max(record.arrivals, held?.arrivals ?? 0)) return "same";
  await keepAnswer(deps.db, record);
  await writeMeta(deps.db, "last_heard", record.heard_at);
  return asked;
}
