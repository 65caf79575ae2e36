/** Registers the service worker, and brings in a new version when the person agrees. */

import { trustedScript } from "../kit/trusted";

export interface Updates {
  onReady(): void;
  /** A new version is there and waits. */
  onUpdate(): void;
}

const LOOK_AGAIN_MS = 3_600_000;

let waiting: ServiceWorker | null = null;

/** Register; without a secure context there is no service worker, and the app needs the server to open. */
export async function registerWorker(updates: Updates): Promise<void> {
  if (!isSecureContext || import.meta.env.DEV) return;
  try {
    const workers = navigator.serviceWorker;
    if (!workers) return;
    void workers.ready.then(() => updates.onReady());
    const registration = await workers.register(trustedScript("/sw.js"), { updateViaCache: "none" });
    watch(registration, updates);
  } catch (error) {
    // Some browsers refuse workers; with the server dead there is nothing to register from, and the one of before goes on.
    if (!(error instanceof TypeError || error instanceof DOMException)) throw error;
  }
}

function watch(registration: ServiceWorkerRegistration, updates: Updates): void {
  const offer = (worker: ServiceWorker | null) => {
    // The very first worker is no update: nothing was there before it.
    if (worker?.state !== "installed" || !navigator.serviceWorker.controller) return;
    waiting = worker;
    updates.onUpdate();
  };
  offer(registration.waiting);
  registration.addEventListener("updatefound", () => {
    const worker = registration.installing;
    worker?.addEventListener("statechange", () => offer(worker));
  });
  lookHourly(registration);
}

/** A page that stays open all day is shown again and again, and loads nothing that would tell of a new version. */
function lookHourly(registration: ServiceWorkerRegistration): void {
  let last_ms = Date.now();
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden" || Date.now() - last_ms < LOOK_AGAIN_MS) return;
    last_ms = Date.now();
    void registration.update().catch(() => {}); // No server, no new version: the next hour is soon enough.
  });
}

/** Let the new version take over, then load the page anew. */
export function takeUpdate(): void {
  if (!waiting || waiting.state === "activated") {
    location.reload();
    return;
  }
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting.postMessage("skip-waiting");
}
