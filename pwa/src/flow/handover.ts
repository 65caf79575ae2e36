/** Hands over without a network; the code for it is fetched when it is first used. */

import type { RunningCore } from "./core";
import type { Actions } from "./model";

type HandoverActions = Pick<Actions, "makeBundle" | "takeBundle" | "codesFor" | "scanCodes">;

/** Make the actions. */
export function handoverActions(core: RunningCore): HandoverActions {
  return {
    makeBundle: async () => (await import("./handing")).makeBundle(core),
    takeBundle: async (file) => (await import("./handing")).takeBundle(core, file),
    codesFor: async (reports) => (await import("./handing")).codesFor(core, reports),
    scanCodes: async (video, onNews) => (await import("./scanning")).scanCodes(core, video, onNews),
  };
}
