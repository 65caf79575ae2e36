/** What a season teaches; the code for it is fetched when it is first used. */

import type { Core } from "./core";
import type { Actions } from "./model";

/** Make the actions. */
export function seasonActions(core: Core): Pick<Actions, "acceptRates" | "askSpares"> {
  return {
    acceptRates: async (...asked) => (await import("./seasoning")).acceptRates(core, ...asked),
    askSpares: async (wish) => (await import("./seasoning")).askSpares(core, wish),
  };
}
