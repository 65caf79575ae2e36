/** Listens for "something changed" while the page is visible; the stream never carries data. */

import { LONGEST_MS, waitMs } from "./backoff";
import type { Locks } from "./turn";
import { API, type Fetch } from "./wire";

/** Three beats of the server's 15 s without a byte: the stream is dead though no error came. */
const SILENT_MS = 45_000;

export interface LiveDeps {
  fetch: Fetch;
  /** The token to listen with, or null while there is none that the server takes. */
  token: () => Promise<string | null>;
  onChanged: () => void;
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
    await pause(token === null ? LONGEST_MS : waitMs(Math.max(1, failures), Math.random()), signal);
  }
}

/** Read one stream to its end; returns whether it was one. */
async function readStream(deps: LiveDeps, token: string, signal: AbortSignal): Promise<boolean> {
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
    deps.onChanged(); // What changed while nobody listened was announced to nobody.
    await readEvents(stream, deps.onChanged, heard);
    return true;
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
  await response.body?.cancel();
  return null;
}

async function readEvents(body: ReadableStream<Uint8Array>, onChanged: () => void, heard: () => void): Promise<void> {
  const reader = body.getReader();
  const decoder = new TextDecoder();
  let rest = "";
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    heard();
    rest += decoder.decode(part.value, { stream: true });
    const events = rest.split("\n\n");
    rest = events.pop() ?? "";
    if (events.some((event) => /^event: ?changed$/m.test(event))) onChanged();
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
