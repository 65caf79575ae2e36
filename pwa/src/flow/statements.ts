/** What the manager puts down about a bill; the code comes with the first of it. */

import type { Core } from "./core";
import type { Actions } from "./model";

type StatementActions = Pick<Actions, "decideCharge" | "issueStatement" | "settleLine">;

/** Make the actions. */
export function statementActions(core: Core): StatementActions {
  return {
    decideCharge: async (...said) => (await import("./charging")).decideCharge(core, ...said),
    issueStatement: async (draft) => (await import("./charging")).issueStatement(core, draft),
    settleLine: async (...said) => (await import("./charging")).settleLine(core, ...said),
  };
}
