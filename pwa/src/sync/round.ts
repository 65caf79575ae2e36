/** One round with the server: all that waits goes out, all that is new comes in, then photos. */

import type { Entry, Problem, Synced } from "../kit/api";
import { localIso } from "../kit/time";
import type { Db, IdentityRecord } from "../store/db";
import { setupHere } from "../store/answers";
import { isWithheld } from "../report/withheld";
import type { CarOf, Said } from "../store/current";
import { type Lacking, settle } from "../store/entries";
import { identitiesHere, markRefused, speakingAs } from "../store/identities";
import { readMeta } from "../store/meta";
import { countWaitingPhotos } from "../store/photos";
import { signedEntries } from "../store/signatures";
import { type Batch, MOST_ENTRIES, nextBatch } from "./batch";
import { managerOf } from "./manager";
import type { PhotosSent } from "./photos";
import { standOf } from "./stand";
import { call, type Fetch, hasFallenOver, isObject, isProblem, type Reply } from "./wire";

export interface Deps {
  db: Db;
  fetch: Fetch;
  /** Unix ms. */
  now: () => number;
  /** Called where more is to come, with how many entries this round has fetched so far. */
  onFetched?: (entries: number) => void;
}

/**
 * `idle`: nobody has joined, or no token of this phone is taken. `failed`: the server is there, and fell over the call.
 * `changed`: entries here are others than before.
 */
export interface Round {
  outcome: "reached" | "unreachable" | "failed" | "idle";
  changed: boolean;
  retry_after_s: number | null;
}

interface Course {
  /** Who speaks where nothing else decides: the device that has to have heard all in the end. */
  speaker: string | null;
  refused: Set<string>;
  /** Entries of a batch at most; halved when a server takes no batch of that size. */
  most: number;
  pulled: boolean;
  /** Whom the server sent back in the log: it asks from there before another's call moves on the cursor that they share. */
  behind: IdentityRecord | null;
  /** Some token was taken. */
  taken: boolean;
  changed: boolean;
  /** Entries that came in this round. */
  fetched: number;
  /** The next page of a long log, asked for while the last is being stored. */
  ahead: Ahead | null;
  /** The log that needs nothing brought, as far as this round has looked: a season's pages are not each a reason to look again. */
  has_all: string | null;
}

interface Ahead {
  device: string;
  log_id: string;
  cursor: number;
  reply: Promise<Reply>;
}

const RELEASE_AFTER_CALLS = 400;

/** Send and fetch until both sides hold the same, speaking as `person` where nothing else decides. */
export async function syncRound(deps: Deps, person: string | null): Promise<Round> {
  const none = { refused: new Set<string>(), speaker: null, behind: null, pulled: false, taken: false, changed: false };
  const course: Course = { ...none, most: MOST_ENTRIES, fetched: 0, ahead: null, has_all: null };
  // Before any call: what was written is signed while its key is here, whether or not a server answers.
  await signedEntries(deps.db);
  for (let calls = 0; calls < RELEASE_AFTER_CALLS; calls++) {
    if (!(await bringIfLost(deps, person, course))) return ended("unreachable", course, null);
    const batch = await batchNow(deps, person, course);
    if (!batch) break;
    const lacking = await lackingNow(deps, batch);
    const reply = await ask(deps, batch, lacking, course);
    if (hasFallenOver(reply)) return ended("failed", course, null);
    if (reply.kind === "unreachable") return ended("unreachable", course, reply.retry_after_s);
    if (!(await take(deps, batch, lacking, reply, course))) return ended("unreachable", course, null);
  }
  if (!course.taken) return ended("idle", course, null);
  const photos = await photosOut(deps, person, course);
  course.changed ||= photos.changed;
  return ended(photos.reached ? "reached" : "unreachable", course, photos.retry_after_s);
}

// What sends photos comes with the first that waits; where it can't be had, the server can't either.
async function photosOut(deps: Deps, person: string | null, course: Course): Promise<PhotosSent> {
  const none = { reached: true, changed: false, retry_after_s: null };
  if ((await countWaitingPhotos(deps.db)) === 0) return none;
  const sending = await import("./photos").catch(() => null);
  return sending ? sending.sendPhotos(deps, person, course.refused) : { ...none, reached: false };
}

function ended(outcome: Round["outcome"], course: Course, retry_after_s: number | null): Round {
  return { outcome, changed: course.changed, retry_after_s };
}

// Entries first; once none waits, one more call with none fetches what others wrote.
async function batchNow(deps: Deps, person: string | null, course: Course): Promise<Batch | null> {
  const identities = await identitiesHere(deps.db);
  const usable = identities.filter((one) => !course.refused.has(one.device));
  const identity = speakingAs(usable, person) ?? usable.at(-1) ?? null;
  course.speaker = identity?.device ?? null;
  const { behind } = course;
  course.behind = null;
  if (behind) return { identity: behind, entries: [] };
  const batch = nextBatch(await signedEntries(deps.db), identities, course.refused, person, course.most);
  if (batch) return batch;
  return course.pulled || !identity ? null : { identity, entries: [] };
}

// A log that this phone has brought nothing to yet may be that of a server which lost its set-ups and devices.
async function bringIfLost(deps: Deps, person: string | null, course: Course): Promise<boolean> {
  const log_id = (await readMeta(deps.db, "log_id")) ?? "";
  if (log_id === "" || log_id === course.has_all || (await readMeta(deps.db, "brought_to")) === log_id) return true;
  const identities = (await identitiesHere(deps.db)).filter((one) => !course.refused.has(one.device));
  const manager = managerOf(identities, (await setupHere(deps.db))?.answer.events ?? [], person);
  if (!manager) course.has_all = log_id;
  if (!manager) return true;
  const { bring } = await import("./seed_server");
  const brought = await bring(deps, manager, log_id);
  return brought === "refused" ? refuse(deps, manager, course) : brought !== "unreachable";
}

// Seldom: where something is withheld here. Where what it takes can't be had, it is asked for later.
async function lackingNow({ db }: Deps, { identity }: Batch): Promise<Lacking | null> {
  if ((await db.countFromIndex("entries", "sending", "withheld")) === 0) return null;
  const asking = await import("./lacking").catch(() => null);
  return asking ? asking.lackingFor(db, identity) : null;
}

async function ask(deps: Deps, batch: Batch, lacking: Lacking | null, course: Course): Promise<Reply> {
  const { ahead } = course;
  course.ahead = null;
  const { cursor, ...stand } = await standOf(deps.db, batch.identity.device);
  const log_id = stand.log_id || null;
  const { device, token } = batch.identity;
  const isNext = ahead?.device === device && ahead.cursor === cursor && ahead.log_id === log_id;
  if (isNext && batch.entries.length === 0 && !lacking) return ahead.reply;
  return sync(deps, token, { log_id, cursor, entries: batch.entries, ...(lacking && { lacks: lacking.ids }) });
}

interface Asked {
  log_id: string | null;
  cursor: number;
  entries: Entry[];
  lacks?: string[];
}

function sync({ fetch, now }: Deps, token: string, { lacks, ...asked }: Asked): Promise<Reply> {
  const json = { ...asked, now: localIso(now()), heads: true, ...(lacks && { lacks }) };
  return call(fetch, { method: "POST", path: "/sync", token, json });
}

function askAhead(deps: Deps, { device, token }: IdentityRecord, { log_id, cursor }: Synced): Ahead {
  return { device, log_id, cursor, reply: sync(deps, token, { log_id, cursor, entries: [] }) };
}

/** Take a reply in; false where it brings nothing on, so that asking again at once would be in vain. */
async function take(deps: Deps, batch: Batch, lacking: Lacking | null, reply: Reply, course: Course): Promise<boolean> {
  if (reply.kind === "problem" && reply.status === 401) return refuse(deps, batch.identity, course);
  if (reply.kind === "problem") return takeProblem(deps, batch, reply.problem, course);
  const synced = reply.kind === "ok" ? syncedOf(reply.body) : null;
  if (!synced) return false;
  course.taken = true;
  course.changed = (await markRefused(deps.db, batch.identity.device, false)) || course.changed;
  return settleBatch(deps, batch, lacking, synced, course);
}

async function refuse(deps: Deps, identity: IdentityRecord, course: Course): Promise<boolean> {
  course.refused.add(identity.device);
  course.has_all = null;
  course.changed = (await markRefused(deps.db, identity.device, true)) || course.changed;
  return true;
}

// Seldom, and only where a server answers: what it takes to find the one entry that it means comes then.
async function takeProblem(deps: Deps, batch: Batch, problem: Problem, course: Course): Promise<boolean> {
  const halving = await import("./halving").catch(() => null);
  if (!halving) return false;
  const { most, changed } = await halving.halved(deps, batch, problem);
  course.changed ||= changed;
  course.most = most;
  return most > 0;
}

async function settleBatch(
  deps: Deps,
  batch: Batch,
  lacking: Lacking | null,
  synced: Synced,
  course: Course,
): Promise<boolean> {
  const { device, ...before } = await standOf(deps.db, batch.identity.device);
  const new_log = before.log_id !== "" && (before.log_id !== synced.log_id || synced.cursor < before.cursor);
  const sent = new Set(batch.entries.map((entry) => entry.id));
  const accepted = synced.accepted.filter((id) => sent.has(id));
  const rejected = synced.rejected.flatMap(({ id, problem }) => (id && sent.has(id) ? [{ id, problem }] : []));
  const { log_id, cursor } = synced;
  // What stands for an entry is kept as one: it counts, and nothing follows from it.
  const heard = synced.entries as Entry[];
  const said = saidOf(synced);
  if (new_log) course.behind = batch.identity;
  course.fetched += heard.length;
  if (synced.more && !new_log) {
    course.ahead = askAhead(deps, batch.identity, synced);
    deps.onFetched?.(course.fetched);
  }
  const settled = { log_id, cursor, accepted, rejected, heard, new_log, said, lacking, ...(device && { device }) };
  const changed = await settle(deps.db, settled, await heardAt(deps));
  course.changed ||= changed;
  // What came in another's name may be less than who speaks now is shown.
  const isSpeakers = batch.identity.device === course.speaker || !heard.some(isWithheld);
  course.pulled = !synced.more && !lacking?.more && isSpeakers;
  course.most = MOST_ENTRIES;
  return batch.entries.length === 0 || new_log || accepted.length + rejected.length > 0;
}

async function heardAt(deps: Deps): Promise<string> {
  return new Date(deps.now()).toISOString();
}

/** Return a sync answer of the right shape, or null: anything else is no acknowledgement. */
function syncedOf(body: unknown): Synced | null {
  if (!isObject(body) || typeof body.log_id !== "string" || !Number.isSafeInteger(body.cursor)) return null;
  const { log_id, cursor, accepted, rejected, entries, more } = body;
  if (!isStrings(accepted) || !Array.isArray(rejected) || !Array.isArray(entries)) return null;
  if (!rejected.every(isRejection) || !entries.every(isEntry)) return null;
  return { log_id, cursor: cursor as number, accepted, rejected, entries, more: more === true, ...saidOf(body) };
}

// A server of 0.1.0 says nothing of versions.
function saidOf({ setup, set_aside, cars }: Record<string, unknown>): Said | null {
  if (typeof setup !== "string" || typeof set_aside !== "string" || !Array.isArray(cars)) return null;
  return cars.every(isCar) ? { setup, set_aside, cars } : null;
}

const isCar = (value: unknown): value is CarOf =>
  isObject(value) && typeof value.event === "string" && typeof value.car === "string";

const isStrings = (value: unknown): value is string[] =>
  Array.isArray(value) && value.every((one) => typeof one === "string");

function isRejection(value: unknown): value is Synced["rejected"][number] {
  return isObject(value) && (value.id === null || typeof value.id === "string") && isProblem(value.problem);
}

function isEntry(value: unknown): value is Entry {
  if (!isObject(value) || !isObject(value.data)) return false;
  return ["id", "kind", "event", "car", "at", "device", "person"].every((name) => typeof value[name] === "string");
}
