/** Fetches a document from the server byte by byte, so that its coming can be shown. */

import type { Problem } from "../kit/api";
import type { Progress } from "../report/made_file";
import { API, type Fetch, isProblem } from "./wire";

/** A record with hundreds of photos is set in some ten seconds, longer on a small server. */
const TIMEOUT_MS = 180_000;
const KINDS = /^(application\/pdf|application\/zip|text\/csv|application\/vnd\.openxmlformats-)/;

export type Fetched =
  | { kind: "file"; name: string; blob: Blob }
  | { kind: "problem"; problem: Problem }
  | { kind: "unreachable" };

/** Fetch what lies below /api/v1 at `path`. Never rejects for what a network or a server may do. */
export async function fetchFile(
  fetcher: Fetch,
  token: string,
  path: string,
  onProgress: (progress: Progress) => void,
): Promise<Fetched> {
  try {
    const headers = { Authorization: `Bearer ${token}` };
    const signal = AbortSignal.timeout(TIMEOUT_MS);
    const response = await fetcher(API + path, { method: "GET", headers, cache: "no-store", signal });
    const type = response.headers.get("Content-Type") ?? "";
    // A station's captive page answers 200 with HTML: only what we asked for is a document.
    if (response.ok && KINDS.test(type)) {
      return { kind: "file", name: nameOf(response, path), blob: await bytesOf(response, type, onProgress) };
    }
    const body: unknown = /[/+]json\b/.test(type) ? await response.json() : null;
    return isProblem(body) && response.status <= 500 ? { kind: "problem", problem: body } : { kind: "unreachable" };
  } catch (error) {
    if (isTrouble(error)) return { kind: "unreachable" };
    throw error;
  }
}

async function bytesOf(response: Response, type: string, onProgress: (progress: Progress) => void): Promise<Blob> {
  const length = Number(response.headers.get("Content-Length") ?? Number.NaN);
  const of = Number.isFinite(length) && length > 0 ? length : null;
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  let bytes = 0;
  const reader = response.body?.getReader();
  for (let next = await reader?.read(); next && !next.done; next = await reader?.read()) {
    pieces.push(new Uint8Array(next.value));
    bytes += next.value.length;
    onProgress({ bytes, of });
  }
  // Cut short, it is no document; the network says so only for some answers.
  if (of !== null && bytes !== of) throw new TypeError("cut short");
  return new Blob(pieces, { type });
}

function nameOf(response: Response, path: string): string {
  const said = /filename="([^"]+)"/.exec(response.headers.get("Content-Disposition") ?? "")?.[1];
  return said ?? path.split("?")[0]?.split("/").at(-1) ?? "document";
}

function isTrouble(error: unknown): boolean {
  if (error instanceof TypeError || error instanceof SyntaxError) return true;
  return error instanceof DOMException && ["TimeoutError", "AbortError", "NetworkError"].includes(error.name);
}
