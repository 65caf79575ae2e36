/** Fetches what only a manager reads: a set-up's files, costs, statements. Loaded when it is first used. */

import type { SetupFiles } from "../kit/api";
import { costsKey, filesKey, statementsKey } from "../store/answers";
import { type Asked, type Deps, fetchAnswer } from "./answers";
import { isObject } from "./wire";

/**
 * Fetch the files of an event's set-up, which a manager's phone brings to a server that lost them.
 *
 * A server names the trusted entries that it holds: one that is just being brought back holds few, and none is forgotten.
 */
export function fetchFiles(deps: Deps, token: string, event: string): Promise<Asked> {
  const path = `/events/${encodeURIComponent(event)}/files`;
  const together = (held: unknown, body: unknown) => {
    const { trusted, ...rest } = body as SetupFiles;
    return { ...rest, trusted: { ...(held as SetupFiles | null)?.trusted, ...trusted } };
  };
  return fetchAnswer(deps, token, path, filesKey(event), (body) => isObject(body.files), together);
}

/** Fetch a car's cost sheet. */
export function fetchCosts(deps: Deps, token: string, event: string, car: string): Promise<Asked> {
  const path = `/events/${encodeURIComponent(event)}/costs?car=${encodeURIComponent(car)}`;
  const isCosts = (body: Record<string, unknown>) => body.event === event && Array.isArray(body.lines);
  return fetchAnswer(deps, token, path, costsKey(event, car), isCosts);
}

/** Fetch what a car's customer is charged. */
export function fetchStatements(deps: Deps, token: string, event: string, car: string): Promise<Asked> {
  const path = `/events/${encodeURIComponent(event)}/cars/${encodeURIComponent(car)}/statements`;
  const isRight = (body: Record<string, unknown>) =>
    body.event === event && body.car === car && Array.isArray(body.issued);
  return fetchAnswer(deps, token, path, statementsKey(event, car), isRight);
}
