/** The service plan and the briefing; the code for it is fetched when it is first used. */

import type { RunningCore } from "./core";
import type { Actions } from "./model";

type PlanActions = Pick<
  Actions,
  "choosePlanned" | "askPlan" | "startTask" | "finishTask" | "keepBriefing" | "acknowledgeBriefing"
>;

/** Make the actions. */
export function planActions(core: RunningCore): PlanActions {
  const planning = () => import("./planning");
  return {
    choosePlanned(service) {
      core.page.planned = service;
      void core.refresh();
    },
    askPlan: async (...said) => (await planning()).askPlan(core, ...said),
    startTask: async (...said) => (await planning()).startTask(core, ...said),
    finishTask: async (...said) => (await planning()).finishTask(core, ...said),
    keepBriefing: async (briefing) => (await planning()).keepCopy(core, briefing),
    acknowledgeBriefing: async (...said) => (await planning()).acknowledgeBriefing(core, ...said),
  };
}
