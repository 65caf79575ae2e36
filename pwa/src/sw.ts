/** The service worker: keeps the app itself on the phone, and takes in what other apps share. Never touches the API, never takes over unasked. */

import { addPlugins, cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import { SHARE_PATH, SHARED_CACHE } from "./kit/shared";
import type { Kept } from "./kit/kept_app";
import { takeShared } from "./worker/sharing";

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: { url: string; revision: string | null }[] };

const FILES = self.__WB_MANIFEST;
let kept: number | null = null;

/** Tell the open pages how far it is; what an earlier try left in the cache counts. */
async function tellKept({ cacheName }: { cacheName: string }): Promise<void> {
  kept = kept === null ? (await (await caches.open(cacheName)).keys()).length : kept + 1;
  const told: Kept = { kept, of: FILES.length };
  const pages = await self.clients.matchAll({ includeUncontrolled: true, type: "window" });
  for (const page of pages) page.postMessage(told);
}

addPlugins([{ cacheDidUpdate: tellKept }]);
precacheAndRoute(FILES);
cleanupOutdatedCaches();
registerRoute(new NavigationRoute(createHandlerBoundToURL("/index.html"), { denylist: [/^\/api\//] }));
registerRoute(
  ({ url, sameOrigin }) => sameOrigin && url.pathname === SHARE_PATH,
  async ({ request }) => takeShared(request, await caches.open(SHARED_CACHE), Date.now()),
  "POST",
);

// The first page is to be kept from its first load on; a later version waits until the person agrees.
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("message", (event) => {
  if (event.data === "skip-waiting") void self.skipWaiting();
});
