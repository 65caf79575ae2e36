/** Registers the service worker, and brings in a new version when the person agrees. */

import { type Following, KEEP_FOLLOWING, type Keeping, type Kept } from "../kit/kept_app";
import { trustedScript } from "../kit/trusted";
import { keepApp, type Keeper } from "./keeping";

export interface Updates {
  onKeeping(keeping: Keeping): void;
  /** How much is here of what follows in the background. */
  onFollowing(following: Following): void;
  /** A new version is there and waits. */
  onUpdate(): void;
}

const LOOK_AGAIN_MS = 3_600_000;

let waiting: ServiceWorker | null = null;

/** Return what keeps workers, or null where there is none; some browsers refuse even to be asked. */
function workersHere(): ServiceWorkerContainer | null {
  if (!isSecureContext || import.meta.env.DEV) return null;
  try {
    return navigator.serviceWorker ?? null;
  } catch {
    return null;
  }
}

/** Return what is known before anything is asked: a page that a worker brought is kept. */
export function keepingAtStart(): Keeping {
  const workers = workersHere();
  if (!workers) return { state: "never" };
  return workers.controller ? { state: "kept" } : { state: "keeping", kept: 0, of: null };
}

/** Register; without a secure context there is no service worker, and the app needs the server to open. */
export function registerWorker(updates: Updates): void {
  const workers = workersHere();
  if (!workers) return;
  const was = keepingAtStart().state;
  const keeper: Keeper = {
    register: async () => workers.register(trustedScript("/sw.js"), { updateViaCache: "none" }),
    online: window,
    later(run, ms) {
      const timer = setTimeout(run, ms);
      return () => clearTimeout(timer);
    },
  };
  // With a worker of before the app is kept, whatever becomes of a newer one.
  const onKeeping = (keeping: Keeping) => was === "kept" || updates.onKeeping(keeping);
  let onFollowing = (_told: Following) => {};
  const onKept = keepApp(keeper, onKeeping, (registration) => {
    onKeeping({ state: "ready" });
    watch(registration, updates);
    const ask = () => registration.active?.postMessage(KEEP_FOLLOWING);
    // Not needed for the first screen; where it can't be had, the next start of the app has the rest follow.
    const following = import("./following").catch(() => null);
    void following.then((loaded) => {
      if (loaded) onFollowing = loaded.keepFollowing(ask, keeper, updates.onFollowing);
    });
  });
  workers.addEventListener("message", ({ data }) => {
    if (!Number.isInteger(data?.kept) || !Number.isInteger(data?.of)) return;
    if (data.follows === true) onFollowing(data as Following);
    else onKept(data as Kept);
  });
}

function watch(registration: ServiceWorkerRegistration, updates: Updates): void {
  const offer = (worker: ServiceWorker | null) => {
    // The very first worker is no update: nothing was there before it.
    if (worker?.state !== "installed" || !navigator.serviceWorker.controller) return;
    waiting = worker;
    // Before the person agrees, so that nothing that worked without signal stops working then.
    worker.postMessage(KEEP_FOLLOWING);
    updates.onUpdate();
  };
  const follow = (worker: ServiceWorker | null) => worker?.addEventListener("statechange", () => offer(worker));
  offer(registration.waiting);
  follow(registration.installing);
  registration.addEventListener("updatefound", () => follow(registration.installing));
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

/** Let the new version take over, then load the page again. */
export function takeUpdate(): void {
  if (!waiting || waiting.state === "activated") {
    location.reload();
    return;
  }
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting.postMessage("skip-waiting");
}
