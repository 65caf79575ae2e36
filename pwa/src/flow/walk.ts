/** The hand-over walk and the readings; the code for them is fetched when it is first used. */

import type { RunningCore } from "./core";
import type { Actions } from "./model";

type WalkActions = Pick<
  Actions,
  "walkDraft" | "keepWalkDraft" | "dropWalkDraft" | "signWalk" | "holdPhotos" | "makeWalkPaper" | "takeReadings"
>;

/** Make the actions. `keepPhoto`: the way that every picture goes. */
export function walkActions(core: RunningCore, keepPhoto: Actions["keepPhoto"]): WalkActions {
  const walking = () => import("./walking");
  return {
    walkDraft: async () => (await walking()).walkDraft(core),
    keepWalkDraft: async (draft) => (await walking()).keepDraft(core, draft),
    dropWalkDraft: async () => (await walking()).dropDraft(core),
    signWalk: async (draft, drawn) => (await walking()).signWalk(core, draft, drawn, keepPhoto),
    holdPhotos: async (photos) => (await walking()).holdPhotos(core, photos),
    makeWalkPaper: async (paper) => (await import("./papers")).makeWalkPaper(core, paper),
    takeReadings: async (readings, report) => (await walking()).takeReadings(core, readings, report),
  };
}
