/** A walk round the car: zone after zone, tick what is bad, one save. */

import { useRef, useState } from "preact/hooks";
import type { ReportBody } from "../../kit/api";
import { countOf, happeningsOf, nextZone, roundOf, type Round, reportsOfRound } from "../../report/round";
import { AnyOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { SaveBar } from "../bits/SaveBar";
import { CarDrawing } from "../car/CarDrawing";
import { symptomLabel, zoneLabel } from "../labels";
import "../log/log.css";
import { Parts } from "../log/Parts";
import { Place } from "../log/Place";
import type { CarScreen } from "../screen";
import { round as words } from "../words/round";
import { type Rounding, useRound } from "./useRound";

export function RoundScreen(props: CarScreen) {
  const { setup, actions } = props;
  const map = setup.car_map;
  const named = props.state.route.subject;
  const first = named !== null && named in map.zones ? named : (roundOf(map)[0] ?? "");
  const rounding = useRound(props);
  const { round, change } = rounding;
  const [zone, setZone] = useState(first);
  const top = useRef<HTMLHeadingElement>(null);
  const look = (next: string) => {
    change({ ...round, zones: { ...round.zones, [zone]: round.zones[zone] ?? [] } });
    setZone(next);
    top.current?.focus();
    top.current?.scrollIntoView();
  };
  const drop = () => {
    rounding.drop();
    setZone(first);
  };
  const save = async () => {
    await actions.fileReports(reportsOfRound(round));
    rounding.forget();
    actions.go("/reports");
  };
  const here: ReportBody = { ...round.base, zone, findings: round.zones[zone] ?? [] };
  const next = nextZone(map, zone);
  const count = countOf(round);
  return (
    <div class="incar stack">
      <h1>{words.title}</h1>
      <p class="soft">{words.how}</p>
      <Dropped {...rounding} />
      <ProblemLine text={rounding.isKept ? null : words.notKept} />
      <Happened {...props} round={round} onChange={change} />
      <Place setup={setup} draft={round.base} onChange={(base) => change({ ...round, base })} />
      <CarDrawing map={map} chosen={zone} counts={{}} onPick={look} />
      <p class="soft">{words.looked(Object.keys(round.zones).length, Object.keys(map.zones).length)}</p>
      <h2 ref={top} tabIndex={-1}>
        {zoneLabel(map, zone)}
      </h2>
      <Parts
        key={zone}
        map={map}
        draft={here}
        onChange={({ findings }) => change({ ...round, zones: { ...round.zones, [zone]: findings } })}
      />
      {next && (
        <button type="button" class="button wide" onClick={() => look(next)}>
          {words.next(zoneLabel(map, next))}
        </button>
      )}
      <button type="button" class="button quiet" onClick={drop}>
        {words.drop}
      </button>
      <SaveBar
        lacking={count > 0 ? null : `${words.needs} ${words.nothing}`}
        label={words.save(count)}
        saving={words.saving}
        onSave={save}
      />
    </div>
  );
}

function Dropped({ dropped, change }: Rounding) {
  if (!dropped) return null;
  return (
    <p role="status">
      {words.dropped}{" "}
      <button type="button" class="button" onClick={() => change(dropped)}>
        {words.bringBack}
      </button>
    </p>
  );
}

function Happened({ setup, round, onChange }: CarScreen & { round: Round; onChange: (round: Round) => void }) {
  const codes = happeningsOf(setup.car_map);
  if (codes.length === 0) return null;
  const toggle = (code: string, on: boolean) =>
    onChange({ ...round, happened: codes.filter((one) => (one === code ? on : round.happened.includes(one))) });
  return (
    <AnyOf
      legend={words.happened}
      options={codes.map((value) => ({ value, label: symptomLabel(setup.car_map, value) }))}
      chosen={round.happened}
      onToggle={toggle}
      after={<p class="soft">{words.happenedNote}</p>}
    />
  );
}
