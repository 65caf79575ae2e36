/** Gives the focus back to where a person was once what they asked for is done, so that a screen reader keeps its place. */

/** A browser takes the focus from a button that is disabled meanwhile. held: what had it; the screen, where that is gone. */
export function giveBack(held: HTMLElement): void {
  if (document.activeElement === document.body) (held.isConnected ? held : document.getElementById("screen"))?.focus();
}
