/** Has the service worker keep what follows once the app is ready, until all of it is there. */

import type { Following } from "../kit/kept_app";
import { waitMs } from "../sync/backoff";
import type { Keeper } from "./keeping";

/** No haste: the longest wait is five minutes, `online` cuts it short. */
const SLOWER = 25;

/** Ask the worker, and again after each try that failed. Returns where its messages go. */
export function keepFollowing(
  ask: () => void,
  { online, later }: Pick<Keeper, "online" | "later">,
  onFollowing: (following: Following) => void,
): (told: Following) => void {
  let failures = 0;
  let forget: (() => void) | null = null;
  const again = () => {
    forget?.();
    forget = null;
    ask();
  };
  online.addEventListener("online", () => forget && again());
  ask();
  return (told) => {
    onFollowing(told);
    if (!told.failed || forget) return;
    failures += 1;
    forget = later(again, waitMs(failures, Math.random()) * SLOWER);
  };
}
