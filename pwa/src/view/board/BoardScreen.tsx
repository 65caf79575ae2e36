/** The wall board: one car in few lines, so large that they are read across the tent. */

import { useMemo, useRef, useState } from "preact/hooks";
import type { Service } from "../../kit/api";
import { isVersion } from "../../report/versions";
import { serviceToPlan, usePlanning } from "../plan/usePlanning";
import type { CarScreen } from "../screen";
import { board as words } from "../words/board";
import "./board.css";
import { Foot } from "./Foot";
import { capitalShare } from "./legible";
import { Mark } from "./Mark";
import { type Row, rowsOf, shortPlaces } from "./rows";
import { Status } from "./Status";
import { useCapitalRatio } from "./useCapitalRatio";
import { useDistance } from "./useDistance";
import { usePages } from "./usePages";

export function BoardScreen(props: CarScreen) {
  const service = serviceToPlan(props);
  return service ? <AtService {...props} service={service} /> : <Board {...props} held={null} standing={NO_STANDING} />;
}

const NO_STANDING: Planned["standing"] = new Map();

/** The newest reports stand beside the clock; more of them are under Reports. */
const MOST_REPORTS = 2;

type Planned = Pick<ReturnType<typeof usePlanning>, "held" | "standing"> & {
  change?: ReturnType<typeof usePlanning>["change"];
};

function AtService({ service, ...props }: CarScreen & { service: Service }) {
  const { held, standing, change } = usePlanning(props, service);
  return <Board {...props} held={held} standing={standing} change={change} />;
}

function Board(props: CarScreen & Planned) {
  const { state, car, held, standing } = props;
  const setup = useMemo(() => shortPlaces(props.setup), [props.setup]);
  const versions = state.entries.filter((one) => isVersion(one.entry) && one.entry.car === car);
  const [known, setKnown] = useState(() => new Set(versions.map((one) => one.entry.id)));
  const [distance, choose] = useDistance();
  const { now, next, reports } = rowsOf({ state, setup, car, held, standing, known });
  const lines = [...now, ...next];
  const box = useRef<HTMLDivElement>(null);
  const pages = usePages(box, distance + JSON.stringify(lines));
  const ratio = useCapitalRatio(box);
  const share = capitalShare(Number(distance));
  return (
    <div class="board" data-from={distance} style={{ "--capital-share": share, "--capital-ratio": ratio }}>
      <h1 class="unseen">{words.title}</h1>
      <Status {...props}>
        <Rows title={words.titles.reports} rows={reports.slice(0, MOST_REPORTS)} />
      </Status>
      <div class="board-rows" ref={box}>
        <Rows
          title={words.titles.now}
          rows={pages.shown ? pages.shown.flatMap((place) => lines[place] ?? []) : lines}
        />
      </div>
      <Foot
        {...props}
        pages={pages}
        distance={distance}
        onDistance={choose}
        news={reports.filter((row) => row.mark === "new").length}
        onSeen={() => setKnown(new Set(versions.map((one) => one.entry.id)))}
      />
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
