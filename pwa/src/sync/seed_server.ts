/** A manager's phone brings a server that lost everything its devices and set-ups, before entries are judged by them. */

import type { Device, Setup, SetupFiles } from "../kit/api";
import { filesHere, setupHere } from "../store/answers";
import type { Db, IdentityRecord } from "../store/db";
import { readMeta, writeMeta } from "../store/meta";
import { isSetup } from "./answers";
import { call, type Fetch, hasFallenOver, isObject, type Reply } from "./wire";

interface Deps {
  db: Db;
  fetch: Fetch;
}

/** Devices in one call. */
const MOST_DEVICES = 500;

/** A set-up with the digests of thousands of loaded entries takes its time on a slow link. */
const TIMEOUT_MS = 60_000;

/** What became of bringing: settled for this log, the manager's token is not taken, no server, or not now. */
export type Brought = "settled" | "refused" | "unreachable" | "later";

/**
 * Bring what the server lacks of what this phone holds.
 *
 * Devices first, then event after event with the digests of entries that were trusted without a signature. What the
 * server refuses is not brought again: it says so to the next manager who looks. Nothing of the server is replaced.
 */
export async function bring(deps: Deps, manager: IdentityRecord, log_id: string): Promise<Brought> {
  const ask = (method: "GET" | "PUT", path: string, json?: unknown) =>
    call(deps.fetch, { method, path, token: manager.token, json, timeout_ms: TIMEOUT_MS });
  const reply = await ask("GET", "/setup");
  if (reply.kind !== "ok" || !isSetup(reply.body)) return failed(reply);
  for (const [path, json] of await missing(deps.db, reply.body)) {
    const put = await ask("PUT", path, json);
    const isTaken = put.kind === "ok" && isObject(put.body);
    if (!isTaken && failed(put) !== "later") return failed(put);
  }
  if ((await readMeta(deps.db, "log_id")) === log_id) await writeMeta(deps.db, "brought_to", log_id);
  return "settled";
}

function failed(reply: Reply): Brought {
  // What fell over was not taken: it is brought again.
  if (hasFallenOver(reply)) return "unreachable";
  if (reply.kind === "problem") return reply.status === 401 ? "refused" : "later";
  return "unreachable";
}

/** What is to be put where, in order. */
async function missing(db: Db, there: Setup): Promise<[path: string, json: unknown][]> {
  const here = (await setupHere(db))?.answer;
  const news = asReadThere(missingDevices(here, there), there);
  const devices = batches(news).map((some) => ["/devices", { devices: some }] as const);
  const events = (await missingEvents(db, there)).map(
    ([event, { files, trusted }]) => [`/events/${encodeURIComponent(event)}`, { files, trusted }] as const,
  );
  return [...devices, ...events].map(([path, json]) => [path, json]);
}

function missingDevices(here: Setup | undefined, there: Setup): Device[] {
  const known = new Map(there.devices.map((one) => [one.device, one]));
  const isNews = (one: Device) => {
    const held = known.get(one.device);
    if (!held || one.shut_out_at === null) return !held;
    return held.shut_out_at === null || (one.last_seq ?? 0) > (held.last_seq ?? 0);
  };
  return (here?.devices ?? []).filter(isNews);
}

// A server of 0.1 knows neither last numbers nor keys of PINs, and refuses a field that it does not know.
function asReadThere(devices: Device[], there: Setup): Device[] {
  if (there.devices.some((one) => one.last_seq !== undefined)) return devices;
  return devices.map(({ last_seq: _, second_key: __, ...device }) => device);
}

async function missingEvents(db: Db, there: Setup): Promise<[string, SetupFiles][]> {
  const known = there.events.map((one) => one.event);
  return (await filesHere(db)).filter(([event]) => !known.includes(event));
}

function batches(devices: Device[]): Device[][] {
  const starts = Array.from({ length: Math.ceil(devices.length / MOST_DEVICES) }, (_, i) => i * MOST_DEVICES);
  return starts.map((start) => devices.slice(start, start + MOST_DEVICES));
}
