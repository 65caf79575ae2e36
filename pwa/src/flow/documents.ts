/** Documents to print; the code for it is fetched when it is first used. */

import type { RunningCore } from "./core";
import type { Actions } from "./model";

/** Make the actions. */
export function documentActions(core: RunningCore): Pick<Actions, "fetchDocument"> {
  return {
    fetchDocument: async (path, onProgress) => (await import("./fetching")).fetchDocument(core, path, onProgress),
  };
}
