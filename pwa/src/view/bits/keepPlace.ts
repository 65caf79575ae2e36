/** Keeps the focus where a person was while what they asked for is under way, so that a screen reader does not fall out of the page. */

/**
 * Return what brings the focus back once it is lost: a browser takes it from a button that is disabled meanwhile or gone
 * afterwards. Then it goes to the button, else to the innermost thing around it that is still there and can take it.
 */
export function keepPlace(): () => void {
  const chain: HTMLElement[] = [];
  for (let at = document.activeElement; at instanceof HTMLElement && at !== document.body; at = at.parentElement)
    chain.push(at);
  return () => void setTimeout(() => giveBack(chain), SETTLES_MS);
}

/** By then what came of the work is drawn, and has taken the focus itself where it does. */
const SETTLES_MS = 100;

function giveBack(chain: HTMLElement[]): void {
  if (document.activeElement !== document.body) return;
  const place = chain.find((one, at) => one.isConnected && (at === 0 || one.hasAttribute("tabindex")));
  place?.focus({ preventScroll: true });
}
