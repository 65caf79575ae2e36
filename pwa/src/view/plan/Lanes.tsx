/** The plan's people under one clock. */

import type { HeldPlan } from "../../flow/model";
import { isAwayForAll, nextOf, peopleOf } from "../../report/plan";
import { personName } from "../labels";
import { boardOf, thereFrom } from "../lanes/board";
import { LaneBoard } from "../lanes/LaneBoard";
import { plan as words } from "../words/plan";
import { nowOn } from "./Facts";
import { clockAt, shortLabel, spanOf, taskLabel, zeroOf } from "./labels";
import type { Planning } from "./usePlanning";

export function Lanes({ state, setup, held, standing }: Planning & { held: HeldPlan }) {
  const { plan } = held;
  const mine = state.identity?.person ?? null;
  const now_s = nowOn(held, setup, state.now);
  const parts = [{ plan, offset_s: 0 }];
  const thereOf = (person: string) => {
    const there_s = thereFrom(parts, person);
    return isAwayForAll(there_s / 60) ? words.awayForAll : words.there(clockAt(plan, setup, there_s));
  };
  const nextSaid = (person: string) => {
    const next = nextOf(plan, person, standing);
    return next ? `${spanOf(plan, setup, next)} ${taskLabel(setup, next)}` : words.nothingNext;
  };
  return (
    <LaneBoard
      board={boardOf(parts, peopleOf(plan, mine), zeroOf(plan, setup), now_s)}
      clock={(s) => clockAt(plan, setup, s)}
      now_s={now_s}
      mine={mine}
      nameOf={(person) => personName(setup, person)}
      labelOf={({ task }) => shortLabel(setup, task)}
      stateOf={({ task }) => standing.get(task.task)?.state ?? task.state}
      thereOf={thereOf}
      nextOf={nextSaid}
    />
  );
}
