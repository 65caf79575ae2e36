/** Keeps the screen from going dark while the board is shown, where the browser can (Screen Wake Lock, W3C). */

import { useEffect, useState } from "preact/hooks";

/** Return whether the screen is kept on now. */
export function useAwake(): boolean {
  const [awake, setAwake] = useState(false);
  useEffect(() => {
    let lock: WakeLockSentinel | null = null;
    let closed = false;
    const take = async () => {
      try {
        if (document.hidden || !navigator.wakeLock) return;
        lock = await navigator.wakeLock.request("screen");
      } catch (error) {
        // Refused, as with a battery that is nearly empty: the board says that the screen may go dark.
        if (!(error instanceof DOMException)) throw error;
        return;
      }
      if (closed) return void lock.release();
      setAwake(true);
      lock.addEventListener("release", () => setAwake(false));
    };
    const again = () => void take();
    again();
    // The browser lets the lock go whenever the page is hidden.
    document.addEventListener("visibilitychange", again);
    return () => {
      closed = true;
      document.removeEventListener("visibilitychange", again);
      void lock?.release();
    };
  }, []);
  return awake;
}
