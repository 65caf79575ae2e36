/** One page of readings for a service: the last values stand there, what is touched is saved in one go. */

import { useState } from "preact/hooks";
import { kindOf, readingsOf } from "../../report/readings";
import { currentService } from "../../report/service";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import type { CarScreen } from "../screen";
import { readings as words } from "../words/readings";
import { Dated } from "./Dated";
import { OneReading } from "./OneReading";
import { brakeLevels, newReadings, reportFor, type Taken } from "./taken";
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
  const { state, setup, car, actions } = props;
  const entries = state.entries.map((held) => held.entry);
  const readings = readingsOf(entries, car);
  const service = currentService(entries, car, setup)?.service ?? null;
  const [taken, setTaken] = useState<Taken>({});
  const [before, setBefore] = useState<Taken[]>([]);
  const [saved, setSaved] = useState<{ readings: number; reported: boolean } | null>(null);
  const { busy, problem, run } = usePending();
  const fresh = newReadings(taken);
  const report = reportFor(taken, readings, entries, car, setup, state.now);
  const change = (next: Taken) => {
    setBefore([...before, taken]);
    setTaken(next);
    setSaved(null);
  };
  const undo = () => {
    setTaken(before.at(-1) ?? {});
    setBefore(before.slice(0, -1));
  };
  const save = () =>
    run(async () => {
      await actions.takeReadings(fresh, report);
      setTaken({});
      setBefore([]);
      setSaved({ readings: fresh.length, reported: report !== null });
    });
  const one = (reading: (typeof FIRST | typeof ENGINE | typeof MORE)[number]) => (
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
      <h2>{words.first}</h2>
      {FIRST.map(one)}
      <h2>{words.engine}</h2>
      {ENGINE.map(one)}
      <details class="sheet">
        <summary>{words.more}</summary>
        <div class="stack">{MORE.map(one)}</div>
      </details>
      <WearTable {...props} readings={readings} />
      <div class="save-bar">
        <div role="status">
          {report && <p class="warn">{brakeLevels(taken, readings)?.before === null ? words.fellLow : words.fell}</p>}
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
        <ProblemLine text={problem} />
        <div class="readings-do">
          {before.length > 0 && (
            <button type="button" class="button" onClick={undo}>
              {words.undo}
            </button>
          )}
          <button
            type="button"
            class="button main"
            aria-disabled={fresh.length === 0 || busy}
            onClick={() => fresh.length > 0 && save()}
          >
            {busy ? words.saving : fresh.length === 0 ? words.nothing : words.touched(fresh.length)}
          </button>
        </div>
      </div>
    </div>
  );
}
