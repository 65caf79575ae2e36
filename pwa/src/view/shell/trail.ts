/** The screens that one came by in this tab, so that the way back leads where one came from. */

const trail: string[] = [];

/** Note that a screen is shown; one that was shown before the last one is a way back, and shortens the trail. */
export function arrived(address: string): void {
  if (trail.at(-2) === address) trail.pop();
  else if (trail.at(-1) !== address) trail.push(address);
}

/** Go back to the screen before, or to `parent` where this one was the first: a link that was opened leads nowhere else. */
export function goBack(parent: string): void {
  if (trail.length > 1) history.back();
  else location.hash = `#/${parent}`;
}
