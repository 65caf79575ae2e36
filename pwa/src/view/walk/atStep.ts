/** What each step of a walk is given. */

import type { WalkDraft } from "../../report/walk_draft";
import type { SignedWalk } from "../../report/walks";
import type { CarScreen } from "../screen";
import type { Walk } from "./useWalk";

export interface AtStep extends CarScreen {
  draft: WalkDraft;
  /** The walk out that a return is compared with. */
  out: SignedWalk | null;
  change: Walk["change"];
}
