/** The wall board: one car in few lines, so large that they are read from the other end of the tent. */

import { useMemo, useRef, useState } from "preact/hooks";
import type { Service } from "../../kit/api";
import { isVersion } from "../../report/versions";
import { serviceToPlan, usePlanning } from "../plan/usePlanning";
import type { CarScreen } from "../screen";
import { board as words } from "../words/board";
import "./board.css";
import { type ByPart, PARTS, type Part } from "./fit";
import { Foot } from "./Foot";
import { CAPITAL_SHARE } from "./legible";
import { Mark } from "./Mark";
import { type Row, rowsOf, shortPlaces } from "./rows";
import { Status } from "./Status";
import { useCapitalRatio } from "./useCapitalRatio";
import { useFit } from "./useFit";

export function BoardScreen(props: CarScreen) {
  const service = serviceToPlan(props);
  return service ? <AtService {...props} service={service} /> : <Board {...props} held={null} standing={NO_STANDING} />;
}

const NO_STANDING: Planned["standing"] = new Map();

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
  const rows = rowsOf({ state, setup, car, held, standing, known });
  const box = useRef<HTMLDivElement>(null);
  const shown = useFit(box, JSON.stringify(rows));
  const ratio = useCapitalRatio(box);
  return (
    <div class="board" style={{ "--capital-share": CAPITAL_SHARE, "--capital-ratio": ratio }}>
      <h1 class="unseen">{words.title}</h1>
      <Status {...props} />
      <div class="board-rows" ref={box}>
        {PARTS.map((part) => (
          <Rows key={part} part={part} rows={rows[part].slice(0, shown?.[part])} />
        ))}
      </div>
      <Foot
        {...props}
        hidden={shown ? hiddenOf(rows, shown) : null}
        news={rows.reports.filter((row) => row.mark === "new").length}
        onSeen={() => setKnown(new Set(versions.map((one) => one.entry.id)))}
      />
    </div>
  );
}

function hiddenOf(rows: ByPart<Row[]>, shown: ByPart<number>): ByPart<number> {
  const count = (part: Part) => rows[part].slice(shown[part]).reduce((sum, row) => sum + row.count, 0);
  return { now: count("now"), next: count("next"), reports: count("reports") };
}

function Rows({ part, rows }: { part: Part; rows: Row[] }) {
  return (
    <section class="board-part" aria-label={words.titles[part]} data-part={part}>
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
