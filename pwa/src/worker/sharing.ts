/** Takes in what another app shares, and leads to the page that makes photos of it. Needs no network. */

import { MOST_SHARED, NOT_TAKEN_PATH, type NotTaken, SHARE_FIELD, SHARE_PATH, SHARED_ADDRESS } from "../kit/shared";

type Kept = Pick<Cache, "delete" | "keys" | "match" | "put">;

/** What no page has fetched by then was given up, as a draft's photo is. */
const KEPT_MS = 86_400_000;

/**
 * Put the posted photos into `cache` and return the way to the page (303: RFC 9110, 15.4.4). Never throws.
 *
 * Of what another site posts nothing is taken: the page then says that nothing was shared.
 */
export async function takeShared(request: Request, cache: Kept, now_ms: number): Promise<Response> {
  await forgetOld(cache, now_ms);
  if (isFromElsewhere(request)) return toThePage(request);
  const files = await filesOf(request);
  const photos = files.filter(isPhoto);
  const room = Math.max(0, MOST_SHARED - (await cache.keys()).length);
  const no_room = await putAll(photos.slice(0, room), cache, now_ms);
  await note(cache, {
    not_photos: files.length - photos.length,
    too_many: Math.max(0, photos.length - room),
    no_room,
  });
  return toThePage(request);
}

const toThePage = ({ url }: Request) => Response.redirect(new URL(`/${SHARED_ADDRESS}`, url), 303);

/**
 * Whether another site's page posted it, as far as a browser tells its service worker.
 *
 * A share of the system has no origin, and no referrer or an app's (`android-app://…`). A page that hides its referrer can't be told
 * from one here: where a browser shows the worker the headers that only itself can set (W3C, Fetch Metadata; RFC 6454,
 * 7.3), these say so.
 */
export function isFromElsewhere({ headers, referrer, url }: Pick<Request, "headers" | "referrer" | "url">): boolean {
  const { origin } = new URL(url);
  const site = headers.get("Sec-Fetch-Site") ?? "none";
  const from = [headers.get("Origin") ?? "", referrer].filter((one) => /^https?:/.test(one));
  return !["none", "same-origin"].includes(site) || from.some((one) => new URL(one).origin !== origin);
}

/** What is no form holds no files: the page then says that nothing was shared. */
async function filesOf(request: Request): Promise<File[]> {
  const form = await request.formData().catch(() => new FormData());
  return form.getAll(SHARE_FIELD).filter((one) => typeof one !== "string");
}

/** A drawing (SVG) is a document with scripts, no photo. */
const isPhoto = ({ type }: File) => type.startsWith("image/") && !type.startsWith("image/svg");

/** Photos of another day would get into a report that they are not of. */
async function forgetOld(cache: Kept, now_ms: number): Promise<void> {
  for (const key of await cache.keys()) {
    const came = (await cache.match(key))?.headers.get("Date");
    if (came && now_ms - Date.parse(came) > KEPT_MS) await cache.delete(key);
  }
}

/** Return how many found no room. */
async function putAll(photos: File[], cache: Kept, now_ms: number): Promise<number> {
  let no_room = 0;
  for (const photo of photos) {
    const headers = { "Content-Type": photo.type, Date: new Date(now_ms).toUTCString() };
    // A name of its own for each: the gallery's may say where or when it was taken.
    await cache.put(`${SHARE_PATH}/${crypto.randomUUID()}`, new Response(photo, { headers })).catch(() => no_room++);
  }
  return no_room;
}

/** Added to what an earlier share left that no page has told yet. */
async function note(cache: Kept, now: NotTaken): Promise<void> {
  const before = (await (await cache.match(NOT_TAKEN_PATH))?.json()) as NotTaken | undefined;
  const told = {
    not_photos: now.not_photos + (before?.not_photos ?? 0),
    too_many: now.too_many + (before?.too_many ?? 0),
    no_room: now.no_room + (before?.no_room ?? 0),
  };
  if (Object.values(told).some((count) => count > 0))
    await cache.put(NOT_TAKEN_PATH, new Response(JSON.stringify(told))).catch(() => {}); // Full: then little is said.
}
