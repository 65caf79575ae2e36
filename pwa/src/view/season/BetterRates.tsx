/** What the timed jobs suggest for the rate table; the manager puts the chosen ones in force. */

import { useState } from "preact/hooks";
import type { Accepted, EventSetup, Observed, OperationName } from "../../kit/api";
import type { Actions } from "../../flow/model";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { season as words } from "../words/season";
import { operationKey } from "./names";
import { Suggestion, type Suggested } from "./Suggestion";
import { Table } from "./Table";

interface RatesProps {
  observed: Observed;
  setup: EventSetup;
  acceptRates: Actions["acceptRates"];
}

export function BetterRates({ observed, setup, acceptRates }: RatesProps) {
  const [done, setDone] = useState<Accepted | null>(null);
  const { busy, problem, run } = usePending();
  const accept = (operations: OperationName[]) =>
    run(async () => {
      setDone(null);
      setDone(await acceptRates(observed.rates, operations));
    });
  return (
    <section class="sheet" aria-labelledby="rates-title">
      <h2 id="rates-title">{words.rates.title}</h2>
      <p>
        {words.rates.version(observed.rates)} · {words.rates.from(observed.timed, observed.events)}
      </p>
      <p class="soft">{words.rates.method(observed.method.name)}</p>
      <p>{words.rates.decides}</p>
      <p role="status" class="strong told">
        {done && words.rates.done(done.operations.length, done.rates, done.events.join(", "))}
      </p>
      {/* Another version is another table: what was ticked of the old one is forgotten. */}
      <Suggestions key={observed.rates} observed={observed} setup={setup} busy={busy} accept={accept} />
      {/* Out here: a refusal brings another table, and must outlive the suggestions of the old one. */}
      <ProblemLine text={problem} />
      <Apart apart={observed.apart} />
    </section>
  );
}

interface SuggestionsProps {
  observed: Observed;
  setup: EventSetup;
  busy: boolean;
  accept: (operations: OperationName[]) => void;
}

function Suggestions({ observed, setup, busy, accept }: SuggestionsProps) {
  const [chosen, setChosen] = useState<string[]>([]);
  const [missing, setMissing] = useState<string | null>(null);
  const suggested = observed.operations.filter((one): one is Suggested => one.suggested !== null);
  const taken = suggested.filter((one) => chosen.includes(operationKey(one)));
  if (!suggested.length) return <p>{words.rates.none}</p>;
  const put = () => {
    setMissing(taken.length ? null : words.rates.chooseFirst);
    if (!taken.length) return;
    const named = taken.map(({ component, condition, action, zone }) => ({ component, condition, action, zone }));
    accept(named);
  };
  const toggle = (key: string, on: boolean) => setChosen(on ? [...chosen, key] : chosen.filter((one) => one !== key));
  return (
    <>
      <h3>{words.rates.suggestions(suggested.length)}</h3>
      <div class="row">
        <button type="button" class="button" onClick={() => setChosen(suggested.map(operationKey))}>
          {words.rates.all}
        </button>
        <button type="button" class="button" onClick={() => setChosen([])}>
          {words.rates.no}
        </button>
      </div>
      <ul class="suggestions">
        {suggested.map((one) => (
          <Suggestion
            key={operationKey(one)}
            one={one}
            setup={setup}
            chosen={chosen.includes(operationKey(one))}
            onToggle={(on) => toggle(operationKey(one), on)}
          />
        ))}
      </ul>
      <button type="button" class="button main" disabled={busy} onClick={put}>
        {words.rates.putInForce(taken.length)}
      </button>
      <ProblemLine text={missing} />
    </>
  );
}

function Apart({ apart }: { apart: Observed["apart"] }) {
  const rows = Object.entries(apart).map(([why, jobs]) => ({
    key: why,
    name: words.rates.apartRows[why] ?? why,
    cells: [String(jobs)],
  }));
  return (
    <details>
      <summary>{words.rates.apart}</summary>
      <Table caption={words.rates.apart} captionUnseen named={words.rates.why} head={[words.rates.count]} rows={rows} />
    </details>
  );
}
