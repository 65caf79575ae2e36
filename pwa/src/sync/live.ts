/** Listens for "something changed" while the page is visible; the stream never carries data. */

import type { AsOf } from "../store/current";
import { LONGEST_MS, waitMs } from "./backoff";
import type { Locks } from "./leader";
import { API, type Fetch, isObject } from "./wire";

/** Three beats of the server's 15 s without a byte: the stream is dead though no error came. */
const SILENT_MS = 45_000;

export interface LiveDeps {
  fetch: Fetch;
  /** The token to listen with, or null while there is none that the server takes. */
  token: () => Promise<string | null>;
  /** The server's state after the change; null where it does not say all of it. */
  onChanged: (news: AsOf | null) => void;
  /** The server does not take the token: what else is to be asked may show whether it takes any. */
  onRefused: () => void;
  isHidden: () => boolean;
  locks: Promise<Locks | null>;
}

export interface Live {
  /** Look again whether to listen: the page was shown or hidden, or somebody joined. */
  check(): void;
}

/** Start listening. One tab of the phone holds the stream: seven of them block a browser's connections. */
export function openLive(deps: LiveDeps): Live {
  let running: AbortController | null = null;
  const check = () => {
    if (deps.isHidden()) {
      running?.abort();
      running = null;
    } else if (!running) {
      const own = new AbortController();
      running = own;
      void inTurn(deps, own.signal).finally(() => {
        if (running === own) running = null;
      });
    }
  };
  return { check };
}

async function inTurn(deps: LiveDeps, signal: AbortSignal): Promise<void> {
  const locks = await deps.locks;
  if (!locks) return listen(deps, signal);
  try {
    await locks.request("shuntbook-live", { signal }, () => listen(deps, signal));
  } catch (error) {
    if (!signal.aborted) throw error;
  }
}

async function listen(deps: LiveDeps, signal: AbortSignal): Promise<void> {
  for (let failures = 0; !signal.aborted; ) {
    const token = await deps.token();
    const heard = token !== null && (await readStream(deps, token, signal));
    failures = heard ? 0 : failures + 1;
    const again_ms = heard && heard.again_ms !== null ? heard.again_ms : waitMs(Math.max(1, failures), Math.random());
    await pause(token === null ? LONGEST_MS : again_ms, signal);
  }
}

/** What a stream said of when to come again, in ms; null where it ended without a word of it. */
interface Ended {
  again_ms: number | null;
}

/** Read one stream to its end; returns how it ended, or false where it was none. */
async function readStream(deps: LiveDeps, token: string, signal: AbortSignal): Promise<Ended | false> {
  const own = new AbortController();
  const stop = () => own.abort();
  let timer = setTimeout(stop, SILENT_MS);
  const heard = () => {
    clearTimeout(timer);
    timer = setTimeout(stop, SILENT_MS);
  };
  signal.addEventListener("abort", stop);
  try {
    const stream = await openStream(deps, token, own.signal);
    if (!stream) return false;
    // The first event comes at once: what changed while nobody listened was announced to nobody.
    return await readEvents(stream, deps.onChanged, heard);
  } catch (error) {
    if (error instanceof TypeError || error instanceof DOMException) return false;
    throw error;
  } finally {
    clearTimeout(timer);
    signal.removeEventListener("abort", stop);
  }
}

async function openStream(deps: LiveDeps, token: string, signal: AbortSignal) {
  const headers = { Authorization: `Bearer ${token}`, Accept: "text/event-stream" };
  const response = await deps.fetch(`${API}/live`, { headers, cache: "no-store", signal });
  const isStream = response.ok && response.headers.get("Content-Type")?.startsWith("text/event-stream");
  if (isStream) return response.body;
  if (response.status === 401) deps.onRefused();
  await response.body?.cancel();
  return null;
}

async function readEvents(
  body: ReadableStream<Uint8Array>,
  onChanged: LiveDeps["onChanged"],
  heard: () => void,
): Promise<Ended> {
  const reader = body.getReader();
  const decoder = new TextDecoder();
  const ended: Ended = { again_ms: null };
  let rest = "";
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    heard();
    rest += decoder.decode(part.value, { stream: true });
    const events = rest.split("\n\n");
    rest = events.pop() ?? "";
    const retry = events.map((event) => /^retry: ?(\d+)$/m.exec(event)?.[1]).findLast(Boolean);
    if (retry) ended.again_ms = Math.min(Number(retry), LONGEST_MS);
    // Several at once are one: the last one says where the server is.
    const changed = events.findLast((event) => /^event: ?changed$/m.test(event));
    if (changed) onChanged(newsOf(changed));
  }
  return ended;
}

// A server of 0.1.0 says its cursor and no more.
function newsOf(event: string): AsOf | null {
  const data = /^data: ?(.*)$/m.exec(event)?.[1];
  const news = jsonOf(data ?? "");
  if (!isObject(news) || typeof news.setup !== "string" || typeof news.set_aside !== "string") return null;
  return { cursor: Number(news.cursor), setup: news.setup, set_aside: news.set_aside };
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    if (error instanceof SyntaxError) return null;
    throw error;
  }
}

function pause(ms: number, signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    if (signal.aborted) return resolve();
    const end = () => {
      clearTimeout(timer);
      signal.removeEventListener("abort", end);
      resolve();
    };
    const timer = setTimeout(end, ms);
    signal.addEventListener("abort", end);
  });
}
