/** Keeps, in the service worker, what follows in the background once the app is ready to work without signal. */

import type { Following } from "../kit/kept_app";

export const FOLLOWING_CACHE = "shuntbook-following";

/** What this needs of the worker; tests bring their own. */
export interface Store {
  caches: Pick<CacheStorage, "open" | "match">;
  fetch(url: string): Promise<Response>;
}

// A file's name has its content's hash: under one name there is one content, whatever a header says it varies by.
const BY_NAME = { ignoreVary: true };

/**
 * Keep each file that is not here, one after the other; what lies in another of the app's caches is not fetched again.
 * `tell` hears how many are here, at last with `failed` where one can't be had or kept now. Never rejects for that.
 */
export async function keepFollowing(
  urls: string[],
  store: Store,
  tell: (following: Following) => unknown,
): Promise<void> {
  const cache = await store.caches.open(FOLLOWING_CACHE);
  const is = { follows: true as const, of: urls.length };
  const missing: string[] = [];
  for (const url of urls) if (!(await cache.match(url, BY_NAME))) missing.push(url);
  let kept = urls.length - missing.length;
  await tell({ ...is, kept, failed: false });
  for (const url of missing) {
    if (!(await keep(url, cache, store))) return void (await tell({ ...is, kept, failed: true }));
    kept += 1;
    await tell({ ...is, kept, failed: false });
  }
}

async function keep(url: string, cache: Cache, { caches, fetch }: Store): Promise<boolean> {
  try {
    const response = (await caches.match(url, BY_NAME)) ?? (await fetch(url));
    if (response.ok) await cache.put(url, response);
    return response.ok;
  } catch (error) {
    // No network is a TypeError, a full phone a DOMException: both may pass.
    if (error instanceof TypeError || error instanceof DOMException) return false;
    throw error;
  }
}

/** Answer a request for such a file, from here or from the server. */
export async function serveFollowing(request: Request, { caches, fetch }: Store): Promise<Response> {
  const here = await (await caches.open(FOLLOWING_CACHE)).match(request.url, BY_NAME);
  return here ?? fetch(request.url);
}

/** Forget files that this version of the app does not have. `urls`: absolute. */
export async function dropOthers(urls: string[], { caches }: Pick<Store, "caches">): Promise<void> {
  const cache = await caches.open(FOLLOWING_CACHE);
  for (const { url } of await cache.keys()) if (!urls.includes(url)) await cache.delete(url);
}
