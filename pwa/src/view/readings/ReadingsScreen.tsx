/** One page of readings for a service: the last values stand there, what is touched is saved in one go. */

import { askedReadings, type AskedReadings, SUSPENSION } from "../../report/asked_readings";
import { entriesOf } from "../../report/lists";
import { kindOf } from "../../report/readings";
import { currentService } from "../../report/service";
import { componentLabel } from "../labels";
import { ProblemLine } from "../bits/Problem";
import { LivesPressing } from "../lives/LivesPressing";
import type { CarScreen } from "../screen";
import { readings as words } from "../words/readings";
import { Dated } from "./Dated";
import { OneReading } from "./OneReading";
import { brakeLevels } from "./taken";
import { type Taking, useTaken } from "./useTaken";
import { WearTable } from "./WearTable";
import "./readings.css";

const FIRST = ["brake reservoir", "tyre pressure", "brake pad", "tread"] as const;
const ENGINE = ["peak water temperature", "peak oil temperature", "lowest oil pressure"] as const;
const MORE = [
  "oil added",
  "coolant added",
  "brake fluid added",
  "tyre number",
  "odometer",
  "clutch reservoir",
] as const;

export function ReadingsScreen(props: CarScreen) {
  const { state, setup, car } = props;
  const entries = entriesOf(state.entries);
  const service = currentService(entries, car, setup)?.service ?? null;
  const taking = useTaken(props);
  const { readings, taken, change } = taking;
  const asked = askedReadings(entries, car, setup);
  const one = (reading: (typeof FIRST | typeof ENGINE | typeof MORE | typeof SUSPENSION)[number]) => (
    <OneReading key={reading} {...{ setup, readings, taken, change }} kind={kindOf(reading)} />
  );
  return (
    <div class="incar stack readings">
      <div>
        <h1>{words.title}</h1>
        <p class="soft">
          {service === null ? words.between : words.at(service)}. {words.how}
        </p>
      </div>
      <Dated setup={setup} car={car} now_ms={state.now} pressing />
      <LivesPressing {...props} />
      {asked.length > 0 && (
        <>
          <h2>{words.suspension}</h2>
          <Asked {...props} asked={asked} />
          {SUSPENSION.filter((reading) => asked.some((row) => row.readings.includes(reading))).map(one)}
        </>
      )}
      <h2>{words.first}</h2>
      {FIRST.map(one)}
      <h2>{words.engine}</h2>
      {ENGINE.map(one)}
      <details class="sheet">
        <summary>{words.more}</summary>
        <div class="stack">
          {SUSPENSION.filter((reading) => !asked.some((row) => row.readings.includes(reading))).map(one)}
          {MORE.map(one)}
        </div>
      </details>
      <WearTable {...props} readings={readings} />
      <Save {...taking} />
    </div>
  );
}

/** Why these are asked for: the repair that moved them. */
function Asked({ setup, asked }: CarScreen & { asked: AskedReadings[] }) {
  return (
    <ul>
      {asked.map(({ job, corner, component, readings }) => (
        <li key={job}>
          {words.askedAfter(
            words.corner[corner],
            componentLabel(setup.car_map, component),
            readings.map((reading) => words.reading[reading]),
          )}
        </li>
      ))}
    </ul>
  );
}

function Save(taking: Taking) {
  const { fresh, undo, pending } = taking;
  return (
    <div class="save-bar">
      <Outcome {...taking} />
      <ProblemLine text={pending.problem} />
      <div class="readings-do">
        {undo && (
          <button type="button" class="button" onClick={undo}>
            {words.undo}
          </button>
        )}
        <button type="button" class="button main" aria-disabled={fresh === 0 || pending.busy} onClick={taking.save}>
          {pending.busy ? words.saving : fresh === 0 ? words.nothing : words.touched(fresh)}
        </button>
      </div>
    </div>
  );
}

function Outcome({ readings, taken, reports, saved }: Taking) {
  return (
    <div role="status">
      {reports && <p class="warn">{brakeLevels(taken, readings)?.before === null ? words.fellLow : words.fell}</p>}
      {saved && (
        <p>
          {words.saved(saved.readings)} {words.wrong}
        </p>
      )}
      {saved?.reported && (
        <a class="button" href="#/queue">
          {words.seeQueue}
        </a>
      )}
    </div>
  );
}
