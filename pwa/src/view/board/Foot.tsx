/** The board's last lines, for whoever stands before it: what has no room, how old it is, and the buttons. */

import type { Change } from "../../report/plan";
import type { HeldPlan } from "../../flow/model";
import { heardAt } from "../labels";
import type { CarScreen } from "../screen";
import { board as words } from "../words/board";
import { queue } from "../words/queue";
import type { ByPart } from "./fit";
import { useAwake } from "./useAwake";
import { useFullScreen } from "./useFullScreen";

interface FootProps extends CarScreen {
  held: HeldPlan | null;
  change?: Change;
  /** People, tasks and reports that have no room; null while it is not known. */
  hidden: ByPart<number> | null;
  news: number;
  onSeen: () => void;
}

export function Foot(props: FootProps) {
  const { hidden, news, onSeen } = props;
  const awake = useAwake();
  const full = useFullScreen();
  return (
    <footer class="board-foot">
      <p class="board-more">{hidden && words.hidden(hidden)}</p>
      <div class="row">
        {news > 0 && (
          <button type="button" class="button" onClick={onSeen}>
            {words.seen(news)}
          </button>
        )}
        {full && (
          <button type="button" class="button" onClick={full.toggle}>
            {full.on ? words.leaveFull : words.full}
          </button>
        )}
        <a class="button" href="#/service">
          {words.back}
        </a>
      </div>
      <p class="board-notes">{notesOf(props, awake).join(" ")}</p>
    </footer>
  );
}

function notesOf({ state, setup, held, change }: FootProps, awake: boolean): string[] {
  const { release, last_heard } = state;
  const heard = last_heard ? queue.heard(heardAt(setup, last_heard, state.now)) : queue.heardNever;
  const why = release?.shown === "nothing-open" ? [queue.nothingNote] : (release?.why ?? []);
  return [
    `${state.unreachable ? `${heard}, ${queue.unreachable}` : heard}.`,
    ...why,
    ...(held ? (change === "news" ? [words.planOld] : []) : [words.noPlan]),
    awake ? words.awake : words.asleep,
  ];
}
