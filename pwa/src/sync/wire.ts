/**
 * One call to the server, and what came back of it.
 *
 * A station's captive page answers 200 with HTML, and proxies cut answers: only JSON that reads as asked is an answer.
 */

import type { Problem } from "../kit/api";

export const API = "/api/v1";
const FELL_OVER = 500;
const TIMEOUT_MS = 20_000;

export type Fetch = (input: string, init: RequestInit) => Promise<Response>;

/**
 * `unreachable` covers no network, time-outs, cut answers, pages that are no answer of ours, and a server that is busy.
 *
 * A server that fell over a call (500) and says so is a `problem`: there is signal, and coming back with more won't help.
 */
export type Reply =
  | { kind: "ok"; status: number; body: unknown; etag: string | null }
  | { kind: "same" }
  | { kind: "problem"; status: number; problem: Problem }
  | { kind: "unreachable"; retry_after_s: number | null };

export interface Call {
  method: "GET" | "POST" | "PUT" | "DELETE";
  /** Below /api/v1. */
  path: string;
  token: string | null;
  /** Sent as JSON. */
  json?: unknown;
  bytes?: { content: ArrayBuffer; type: string };
  etag?: string | null;
  timeout_ms?: number;
}

/** Make a call. Never rejects for what a network or a server may do. */
export async function call(fetcher: Fetch, ask: Call): Promise<Reply> {
  try {
    const signal = AbortSignal.timeout(ask.timeout_ms ?? TIMEOUT_MS);
    const init: RequestInit = { method: ask.method, headers: headersOf(ask), cache: "no-store", signal };
    const body = ask.bytes ? ask.bytes.content : ask.json === undefined ? undefined : JSON.stringify(ask.json);
    return await read(await fetcher(API + ask.path, body === undefined ? init : { ...init, body }));
  } catch (error) {
    if (isNetworkTrouble(error)) return { kind: "unreachable", retry_after_s: null };
    throw error;
  }
}

function headersOf(ask: Call): Record<string, string> {
  const headers: Record<string, string> = { Accept: "application/json, application/problem+json" };
  if (ask.token) headers.Authorization = `Bearer ${ask.token}`;
  if (ask.etag) headers["If-None-Match"] = ask.etag;
  if (ask.bytes) headers["Content-Type"] = ask.bytes.type;
  else if (ask.json !== undefined) headers["Content-Type"] = "application/json";
  return headers;
}

async function read(response: Response): Promise<Reply> {
  if (response.status === 304) return { kind: "same" };
  // Anybody's proxy may say 204: who needs an acknowledgement looks for a body that names what was done.
  if (response.status === 204) return { kind: "ok", status: 204, body: null, etag: null };
  const type = response.headers.get("Content-Type") ?? "";
  const retry_after_s = secondsOf(response.headers.get("Retry-After"));
  if (
    (response.status >= 500 && response.status !== FELL_OVER) ||
    response.status === 429 ||
    !/[/+]json\b/.test(type)
  ) {
    await response.body?.cancel();
    return { kind: "unreachable", retry_after_s };
  }
  const body: unknown = await response.json();
  if (response.ok) return { kind: "ok", status: response.status, body, etag: response.headers.get("ETag") };
  return isProblem(body)
    ? { kind: "problem", status: response.status, problem: body }
    : { kind: "unreachable", retry_after_s };
}

function secondsOf(retryAfter: string | null): number | null {
  const seconds = Number(retryAfter ?? Number.NaN);
  return Number.isFinite(seconds) && seconds >= 0 ? seconds : null;
}

// fetch rejects with TypeError for a dead network, TimeoutError or AbortError when cut short; SyntaxError is half a JSON.
function isNetworkTrouble(error: unknown): boolean {
  if (error instanceof TypeError || error instanceof SyntaxError) return true;
  return error instanceof DOMException && ["TimeoutError", "AbortError", "NetworkError"].includes(error.name);
}

/** Say whether the server itself fell over a call: nobody's network is at fault. */
export function hasFallenOver(reply: Reply): boolean {
  return reply.kind === "problem" && reply.status === FELL_OVER;
}

/** Say whether a value is a JSON object. */
export function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Say whether a value is a problem as RFC 9457 has it. */
export function isProblem(value: unknown): value is Problem {
  return isObject(value) && typeof value.title === "string" && typeof value.type === "string";
}
