/** Looks at a paper before it is fetched: a page as a picture, or the first rows of a table. Loaded when first used. */

import type { Preview } from "../report/preview";
import { linesOf } from "../setup/delimited";
import { API, isProblem } from "../sync/wire";
import type { Core } from "./core";

/** A record with hundreds of photos is set in some ten seconds, longer on a small server. */
const TIMEOUT_MS = 60_000;
const MOST_ROWS = 25;

/** See what the server would make of a paper now. `path`: what follows the event's address; `tag`: the picture held. */
export async function previewDocument(core: Core, path: string, tag: string | null): Promise<Preview> {
  const { speaking, state } = core.snapshot();
  if (!speaking || !state.setup) return { kind: "unreachable" };
  const headers: Record<string, string> = { Authorization: `Bearer ${speaking.token}` };
  if (tag) headers["If-None-Match"] = tag;
  const whole = `${API}/events/${encodeURIComponent(state.setup.event)}/${path}`;
  try {
    const signal = AbortSignal.timeout(TIMEOUT_MS);
    return await seenIn(await core.fetch(whole, { method: "GET", headers, cache: "no-store", signal }));
  } catch (error) {
    // A dead network, or an answer that was cut short.
    if (error instanceof TypeError || error instanceof SyntaxError || error instanceof DOMException)
      return { kind: "unreachable" };
    throw error;
  }
}

async function seenIn(response: Response): Promise<Preview> {
  if (response.status === 304) return { kind: "same" };
  const type = response.headers.get("Content-Type") ?? "";
  // A station's captive page answers 200 with HTML: only what we asked for is a preview.
  if (response.ok && type === "image/png") {
    const pages = Number(response.headers.get("Page-Count") ?? 1);
    return {
      kind: "page",
      url: URL.createObjectURL(await response.blob()),
      pages,
      tag: response.headers.get("ETag"),
    };
  }
  if (response.ok && type.startsWith("text/csv")) {
    const rows = linesOf(await response.text(), ",").map((line) => line.cells);
    return { kind: "rows", rows: rows.slice(0, MOST_ROWS + 1), of: Math.max(0, rows.length - 1) };
  }
  const body: unknown = /[/+]json\b/.test(type) ? await response.json() : null;
  return isProblem(body) && response.status < 500
    ? { kind: "refused", why: `${body.title}. ${body.detail ?? ""}`.trim() }
    : { kind: "unreachable" };
}
