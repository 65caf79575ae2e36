/** The service worker: keeps the app itself on the phone, and takes in what other apps share. Never touches the API, never takes over unasked. */

import { addPlugins, cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import { type Following, follows, KEEP_FOLLOWING, type Kept } from "./kit/kept_app";
import { SHARE_PATH, SHARED_CACHE } from "./kit/shared";
import { dropOthers, keepFollowing, serveFollowing } from "./worker/following";
import { takeShared } from "./worker/sharing";

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: unknown };

// What `manifestTransforms` in vite.config.ts makes.
const FILES = self.__WB_MANIFEST as { url: string; revision: string | null }[];
const FIRST = FILES.filter(({ url }) => !follows(url));
const FOLLOWING = FILES.filter(({ url }) => follows(url)).map(({ url }) => new URL(url, self.location.href).href);
let kept: number | null = null;

async function tellPages(told: Kept | Following): Promise<void> {
  const pages = await self.clients.matchAll({ includeUncontrolled: true, type: "window" });
  for (const page of pages) page.postMessage(told);
}

/** Tell the open pages how far it is; what an earlier try left in the cache counts. */
async function tellKept({ cacheName }: { cacheName: string }): Promise<void> {
  kept = kept === null ? (await (await caches.open(cacheName)).keys()).length : kept + 1;
  await tellPages({ kept, of: FIRST.length });
}

const store = { caches, fetch: (url: string) => fetch(url) };
/** One at a time: pages may ask together. */
let keeping: Promise<void> | null = null;

function keepTheRest(): Promise<void> {
  keeping ??= keepFollowing(FOLLOWING, store, tellPages).finally(() => {
    keeping = null;
  });
  return keeping;
}

addPlugins([{ cacheDidUpdate: tellKept }]);
precacheAndRoute(FIRST);
cleanupOutdatedCaches();
registerRoute(new NavigationRoute(createHandlerBoundToURL("/index.html"), { denylist: [/^\/api\//] }));
registerRoute(
  ({ url }) => FOLLOWING.includes(url.href),
  ({ request }) => serveFollowing(request, store),
);
registerRoute(
  ({ url, sameOrigin }) => sameOrigin && url.pathname === SHARE_PATH,
  async ({ request }) => takeShared(request, await caches.open(SHARED_CACHE), Date.now()),
  "POST",
);

// The first page is to be kept from its first load on; a later version waits until the person agrees.
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("activate", (event) => event.waitUntil(dropOthers(FOLLOWING, store)));
self.addEventListener("message", (event) => {
  if (event.data === "skip-waiting") void self.skipWaiting();
  if (event.data === KEEP_FOLLOWING) event.waitUntil(keepTheRest());
});
