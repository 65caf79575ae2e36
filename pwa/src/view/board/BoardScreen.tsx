/** The wall board: a car in few lines, so large that they are read across the tent; other cars beside it. */

import { useMemo, useRef, useState } from "preact/hooks";
import type { Service } from "../../kit/api";
import { isVersion } from "../../report/versions";
import { type HeldOf, heldOf, serviceToPlan, usePlanning } from "../plan/usePlanning";
import type { CarScreen } from "../screen";
import { board as words } from "../words/board";
import { common } from "../words/common";
import "./board.css";
import { Foot, Page } from "./Foot";
import { capitalShare } from "./legible";
import { Mark } from "./Mark";
import { type Row, rowsOf, shortPlaces } from "./rows";
import { Status } from "./Status";
import { useCapitalRatio } from "./useCapitalRatio";
import { type Wall, useWall } from "./useWall";
import { usePages } from "./usePages";

/** The chosen car's plan is followed; of the cars beside it stands what this device holds. */
export function BoardScreen(props: CarScreen) {
  const { state, setup, actions } = props;
  const service = serviceToPlan(props);
  const wall = useWall(state.boards.length > 0);
  return (
    <div class={wall.several ? "boards several" : "boards"}>
      <h1 class="unseen">{words.title}</h1>
      {service ? (
        <Followed {...props} wall={wall} service={service} />
      ) : (
        <Board {...props} {...NO_PLAN} wall={wall} isChosen />
      )}
      {state.boards.map((other) => {
        const there = { state: other, setup, actions, car: other.car ?? "" };
        const planned = serviceToPlan(there);
        return <Board key={there.car} {...there} {...(planned ? heldOf(there, planned) : NO_PLAN)} wall={wall} />;
      })}
    </div>
  );
}

const NO_PLAN: HeldOf = { held: null, standing: new Map(), change: "none" };

/** The newest reports stand beside the clock; more of them are under Reports. */
const MOST_REPORTS = 2;

function Followed({ service, wall, ...props }: CarScreen & { service: Service; wall: Wall }) {
  const { held, standing, change } = usePlanning(props, service);
  return <Board {...props} {...{ held, standing, change, wall }} isChosen />;
}

/** `isChosen`: the car that this device is about; the foot stands once, under it. */
function Board({ wall, isChosen = false, ...props }: CarScreen & HeldOf & { wall: Wall; isChosen?: boolean }) {
  const { state, car, held, standing } = props;
  const setup = useMemo(() => shortPlaces(props.setup), [props.setup]);
  const versions = state.entries.filter((one) => isVersion(one.entry) && one.entry.car === car);
  const [known, setKnown] = useState(() => new Set(versions.map((one) => one.entry.id)));
  const { now, next, reports } = rowsOf({ state, setup, car, held, standing, known });
  const lines = [...now, ...next];
  const box = useRef<HTMLDivElement>(null);
  const pages = usePages(box, wall.distance + JSON.stringify(lines), wall.paused);
  const ratio = useCapitalRatio(box);
  const share = capitalShare(Number(wall.distance));
  const onSeen = () => setKnown(new Set(versions.map((one) => one.entry.id)));
  const named = (title: string) => (wall.several ? common.and(title, common.car(car)) : title);
  const news = reports.filter((row) => row.mark === "new").length;
  return (
    <div class={wall.roomy ? "board roomy" : "board"} style={{ "--capital-share": share, "--capital-ratio": ratio }}>
      <Status {...props} title={named(words.titles.status)}>
        <Rows title={named(words.titles.reports)} rows={reports.slice(0, MOST_REPORTS)} />
      </Status>
      <div class="board-rows" ref={box}>
        <Rows
          title={named(words.titles.now)}
          rows={pages.shown ? pages.shown.flatMap((place) => lines[place] ?? []) : lines}
        />
      </div>
      {isChosen ? <Foot {...props} {...{ pages, wall, news, onSeen }} /> : <Page {...pages} />}
    </div>
  );
}

function Rows({ title, rows }: { title: string; rows: Row[] }) {
  return (
    <section class="board-part" aria-label={title}>
      <ul>
        {rows.map((row) => (
          <li key={row.key} class={row.mark === "new" ? "board-row new" : "board-row"}>
            <span class="board-label">
              {row.mark && <Mark mark={row.mark} />}
              {row.label}
            </span>
            <span class="board-text">{row.text}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
