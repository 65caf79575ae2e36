/** The board's last lines, for whoever stands before it: which page it is, how old it is, and the buttons. */

import { heardAt } from "../labels";
import type { HeldOf } from "../plan/usePlanning";
import type { CarScreen } from "../screen";
import { board as words } from "../words/board";
import { queue } from "../words/queue";
import { DISTANCES, type Distance } from "./legible";
import type { Pages } from "./usePages";
import { useAwake } from "./useAwake";
import { useFullScreen } from "./useFullScreen";
import type { Wall } from "./useWall";

interface FootProps extends CarScreen, HeldOf {
  pages: Pages;
  wall: Wall;
  news: number;
  onSeen: () => void;
}

export const Page = ({ at, of }: Pages) => <p class="board-more">{of > 1 && words.page(at + 1, of)}</p>;

export function Foot(props: FootProps) {
  const { pages, wall, news, onSeen } = props;
  const awake = useAwake();
  const full = useFullScreen();
  return (
    <footer class="board-foot">
      <Page {...pages} />
      <div class="row">
        {(pages.of > 1 || wall.several) && (
          <button type="button" class="button" onClick={wall.toggle}>
            {wall.paused ? words.goOn : words.pause}
          </button>
        )}
        <label class="row">
          {words.from}
          <select value={wall.distance} onChange={(event) => wall.choose(event.currentTarget.value as Distance)}>
            {DISTANCES.map((one) => (
              <option key={one} value={one}>
                {words.metres(one)}
              </option>
            ))}
          </select>
        </label>
        <Beside {...props} />
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

/** The team's other cars, each a board of its own where it is pressed. */
function Beside({ state, setup, car, actions }: CarScreen) {
  const shown = state.boards.map((one) => one.car ?? "");
  const others = setup.cars.map((one) => one.car).filter((one) => one !== car);
  const toggled = (one: string) => (shown.includes(one) ? shown.filter((other) => other !== one) : [...shown, one]);
  return (
    <>
      {others.map((one) => (
        <button
          key={one}
          type="button"
          class="button"
          aria-pressed={shown.includes(one)}
          onClick={() => actions.go(["/board", ...toggled(one)].join("/"))}
        >
          {words.beside(one)}
        </button>
      ))}
    </>
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
