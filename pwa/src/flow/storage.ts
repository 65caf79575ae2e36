/** Whether the browser keeps this app's store for good: asked beside everything else, and awaited by nothing. */

import type { Core } from "./core";
import { askToPersist, isPersisted, spaceHere } from "./page";

/** Look at it, and at how much room there is; the screens hear of it whenever the browser answers. */
export function lookAtStore(core: Core): void {
  void isPersisted().then((persisted) => {
    core.page.persisted = persisted;
    return core.refresh();
  });
  void spaceHere().then((space) => {
    core.page.space = space;
    return core.refresh();
  });
}

/** Ask the browser to keep it. Some ask the person, who may never answer: nobody waits for it. */
export function askToKeep(core: Core): void {
  void askToPersist().then(() => lookAtStore(core));
}
