/** Makes photos of what another app shared. */

import { NOT_TAKEN_PATH, type NotTaken, SHARED_CACHE, type Shared } from "../kit/shared";
import { UserError } from "../kit/user_error";
import type { Core } from "./core";
import { keepPhoto } from "./photos";

const ALL_TAKEN: NotTaken = { not_photos: 0, too_many: 0, no_room: 0 };

/** Keep each as a draft's photo, in the order in which they came; afterwards nothing waits any more. */
export function takeShared(core: Core): Promise<Shared> {
  return takeFrom(globalThis.caches, (file) => keepPhoto(core, file));
}

/** Take what waits in `caches`; `keep` returns a photo's SHA-256. */
export async function takeFrom(caches: CacheStorage, keep: (file: Blob) => Promise<string>): Promise<Shared> {
  const cache = await caches.open(SHARED_CACHE);
  const photos = new Set<string>();
  let not_taken = ALL_TAKEN;
  let unreadable = 0;
  for (const request of await cache.keys()) {
    const held = await cache.match(request);
    if (held && new URL(request.url).pathname === NOT_TAKEN_PATH) not_taken = (await held.json()) as NotTaken;
    else if (held)
      await keep(await held.blob()).then(
        (photo) => photos.add(photo),
        told(() => unreadable++),
      );
    // One by one: what a page that is closed now has not got to waits for the next.
    await cache.delete(request);
  }
  await caches.delete(SHARED_CACHE);
  return { ...not_taken, photos: [...photos], unreadable };
}

/** One that can't be read or kept stands in no other's way: it is still where it was shared from. */
const told = (count: () => void) => (error: unknown) => {
  if (!(error instanceof UserError)) throw error;
  count();
};
