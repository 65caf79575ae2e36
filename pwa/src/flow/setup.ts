/** Setting up events; the code for it is fetched when it is first used. */

import type { RunningCore } from "./core";
import type { Actions } from "./model";

type SetupActions = Pick<Actions, "keepSetupDraft" | "dropSetupDraft" | "checkSetup" | "putSetup" | "invitePerson">;

/** Make the actions. */
export function setupActions(core: RunningCore): SetupActions {
  const setting = () => import("./setup_files");
  return {
    keepSetupDraft: async (draft) => (await setting()).keepSetupDraft(core, draft),
    dropSetupDraft: async (event) => (await setting()).dropSetupDraft(core, event),
    checkSetup: async (...said) => (await setting()).checkSetup(core, ...said),
    invitePerson: async (person) => (await import("./inviting")).invitePerson(core, person),
    putSetup: async (...said) => (await setting()).putSetup(core, ...said),
  };
}
