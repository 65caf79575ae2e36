/** The board's last lines, for whoever stands before it: which page it is, how old it is, and the buttons. */

import type { Change } from "../../report/plan";
import type { HeldPlan } from "../../flow/model";
import { heardAt } from "../labels";
import type { CarScreen } from "../screen";
import { board as words } from "../words/board";
import { queue } from "../words/queue";
import { DISTANCES, type Distance } from "./legible";
import type { Pages } from "./usePages";
import { useAwake } from "./useAwake";
import { useFullScreen } from "./useFullScreen";

interface FootProps extends CarScreen {
  held: HeldPlan | null;
  change?: Change;
  pages: Pages;
  distance: Distance;
  onDistance: (distance: Distance) => void;
  news: number;
  onSeen: () => void;
}

export function Foot(props: FootProps) {
  const { pages, distance, onDistance, news, onSeen } = props;
  const awake = useAwake();
  const full = useFullScreen();
  return (
    <footer class="board-foot">
      <p class="board-more">{pages.of > 1 && words.page(pages.at + 1, pages.of)}</p>
      <div class="row">
        {pages.of > 1 && (
          <button type="button" class="button" onClick={pages.toggle}>
            {pages.paused ? words.goOn : words.pause}
          </button>
        )}
        <label class="row">
          {words.from}
          <select value={distance} onChange={(event) => onDistance(event.currentTarget.value as Distance)}>
            {DISTANCES.map((one) => (
              <option key={one} value={one}>
                {words.metres(one)}
              </option>
            ))}
          </select>
        </label>
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
