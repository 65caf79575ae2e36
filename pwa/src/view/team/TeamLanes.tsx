/** The people of all cars under one clock: each block says its car. */

import { isAwayForAll } from "../../report/plan";
import { personName } from "../labels";
import { type Block, boardOf, thereFrom } from "../lanes/board";
import { LaneBoard } from "../lanes/LaneBoard";
import { shortLabel, taskLabel } from "../plan/labels";
import { plan as planWords } from "../words/plan";
import { team as words } from "../words/team";
import { clockOfAll, zeroOfAll } from "./clock";
import { peopleOfAll } from "./people";
import type { Teaming } from "./useTeam";

/** A tick for each of so many minutes has room on a board that is wider than a phone: a time takes two of them. */
const TICK_MIN = 4;

export function TeamLanes({ state, setup, held, parts }: Teaming & { held: NonNullable<Teaming["held"]> }) {
  const mine = state.identity?.person ?? null;
  const isIn = parts.some((one) => one.plan.entered_at !== null);
  const now_s = isIn ? (state.now - zeroOfAll(held)) / 1000 : null;
  const minutes = Math.max(...parts.map((one) => one.offset_s + one.plan.work_s)) / 60;
  // What ends late has its ticks, too.
  const ticks = Math.ceil(minutes / TICK_MIN) + 4;
  const board = boardOf(parts, peopleOfAll(parts, mine), zeroOfAll(held), now_s, ticks);
  const clock = (s: number) => clockOfAll(held, setup, s);
  const partOf = (block: Block) => parts.find((one) => one.plan.car === block.car);
  const stateOf = (block: Block) => partOf(block)?.standing.get(block.task.task)?.state ?? block.task.state;
  const thereOf = (person: string) => {
    const there_s = thereFrom(parts, person);
    return isAwayForAll(there_s / 60) ? planWords.awayForAll : planWords.there(clock(there_s));
  };
  const nextOf = (person: string) => {
    const left = board.lanes.find((lane) => lane.person === person)?.blocks.filter((one) => stateOf(one) !== "done");
    const next = left?.find((one) => stateOf(one) === "under-way") ?? left?.[0];
    if (!next) return planWords.nothingNext;
    const offset_s = partOf(next)?.offset_s ?? 0;
    return `${clock(offset_s + next.task.start_s)} ${words.taskOf(next.car, taskLabel(setup, next.task))}`;
  };
  return (
    <LaneBoard
      board={board}
      clock={clock}
      now_s={now_s}
      mine={mine}
      nameOf={(person) => personName(setup, person)}
      labelOf={({ task }) => shortLabel(setup, task)}
      stateOf={stateOf}
      thereOf={thereOf}
      nextOf={nextOf}
    />
  );
}
