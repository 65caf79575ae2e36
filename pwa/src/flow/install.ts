/** How the app gets onto the phone's home screen, where it is not there yet. */

/** `offer`: the browser asks when it is told to. `by-hand`: only the browser's share menu does it. Null: it is there, or can't be. */
export type Install = "offer" | "by-hand" | null;

/** Chromium's own event; it stands in no standard yet (W3C, Manifest Incubations). */
interface InstallEvent extends Event {
  prompt(): Promise<unknown>;
}

let offered: InstallEvent | null = null;

/** Return what is known before the browser offers anything: only Safari on a phone or tablet has `standalone`. */
export function installAtStart(): Install {
  return (navigator as { standalone?: boolean }).standalone === false ? "by-hand" : null;
}

/** Keep the browser's offer for a better moment than its own, and give it up once the app is there. */
export function watchInstall(onChange: (install: Install) => void): void {
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    offered = event as InstallEvent;
    onChange("offer");
  });
  addEventListener("appinstalled", () => {
    offered = null;
    onChange(null);
  });
}

/** Let the browser ask; settles when the person answers, or never. An offer counts once; the browser makes another later. */
export async function askInstall(): Promise<void> {
  const event = offered;
  offered = null;
  try {
    await event?.prompt();
  } catch (error) {
    // An offer that has gone stale; another one may come.
    if (!(error instanceof DOMException)) throw error;
  }
}
