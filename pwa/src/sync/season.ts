/** Asks the server what the season teaches, and puts suggested minutes in force. Loaded when it is first used. */

import type { Accepted, OperationName, Problem } from "../kit/api";
import type { SparesWish } from "../report/season";
import { observedKey, SEASON_KEY, sparesKey } from "../store/season";
import { type Asked, type Deps, fetchAnswer } from "./answers";
import { call, type Fetch, isObject, type Reply } from "./wire";

const ofEvent = (event: string) => `/events/${encodeURIComponent(event)}`;

/** Fetch the damage of all events and the minutes of their operations. */
export function fetchSeason(deps: Deps, token: string): Promise<Asked> {
  const isRight = (body: Record<string, unknown>) => Array.isArray(body.events) && Array.isArray(body.operations);
  return fetchAnswer(deps, token, "/season", SEASON_KEY, isRight);
}

/** Fetch what the timed jobs say of an event's rate table. */
export function fetchObserved(deps: Deps, token: string, event: string): Promise<Asked> {
  const isRight = (body: Record<string, unknown>) => body.event === event && Array.isArray(body.operations);
  return fetchAnswer(deps, token, `${ofEvent(event)}/rates/observed`, observedKey(event), isRight);
}

/** Fetch what to carry; `wish` null for the event as its set-up has it. */
export function fetchSpares(deps: Deps, token: string, event: string, wish: SparesWish | null): Promise<Asked> {
  const isRight = (body: Record<string, unknown>) => body.event === event && Array.isArray(body.parts);
  return fetchAnswer(deps, token, sparesPath(event, wish), sparesKey(event), isRight);
}

/** Return the server's words on why it has no spares for an event; null where it has, or did not answer. */
export async function sparesProblem(
  fetcher: Fetch,
  token: string,
  event: string,
  wish: SparesWish,
): Promise<Problem | null> {
  const reply = await call(fetcher, { method: "GET", path: sparesPath(event, wish), token });
  return reply.kind === "problem" ? reply.problem : null;
}

function sparesPath(event: string, wish: SparesWish | null): string {
  const query = wish ? `?${new URLSearchParams({ km: String(wish.km), cars: String(wish.cars) })}` : "";
  return `${ofEvent(event)}/spares${query}`;
}

/** What became of accepting: what changed, or why nothing did. */
export type Taken = { accepted: Accepted } | Exclude<Reply, { kind: "ok" | "same" }>;

/** Put the suggested minutes of operations in force for the rate table `rates`. */
export async function postAccept(
  fetcher: Fetch,
  token: string,
  rates: string,
  operations: OperationName[],
): Promise<Taken> {
  const reply = await call(fetcher, { method: "POST", path: "/rates/accept", token, json: { rates, operations } });
  if (reply.kind === "problem" || reply.kind === "unreachable") return reply;
  const body = reply.kind === "ok" && isObject(reply.body) ? reply.body : {};
  const isRight = body.before === rates && typeof body.rates === "string" && Array.isArray(body.operations);
  return isRight ? { accepted: body as Accepted } : { kind: "unreachable", retry_after_s: null };
}
