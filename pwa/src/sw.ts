/** The service worker: keeps the app itself on the phone, and takes in what other apps share. Never touches the API, never takes over unasked. */

import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import { SHARE_PATH, SHARED_CACHE } from "./kit/shared";
import { takeShared } from "./worker/sharing";

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: { url: string; revision: string | null }[] };

precacheAndRoute(self.__WB_MANIFEST);
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
