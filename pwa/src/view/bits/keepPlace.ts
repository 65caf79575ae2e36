/** Keeps the focus where a person was while what they asked for is under way, so that a screen reader keeps its place. */

/** By then what came of the work is drawn, and has taken the focus itself where it does. */
const SETTLES_MS = 100;

/**
 * Return what brings the focus back once it is lost, since a browser takes it from a button that is disabled meanwhile:
 * to what has it now, or to the screen where that is gone.
 */
export function keepPlace(): () => void {
  const held = document.activeElement as HTMLElement | null;
  return () =>
    void setTimeout(() => {
      if (document.activeElement !== document.body) return;
      (held?.isConnected ? held : document.getElementById("screen"))?.focus();
    }, SETTLES_MS);
}
