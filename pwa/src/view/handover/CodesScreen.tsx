/** Shows reports as codes: those not sent yet, or those that are ticked. */

import { useEffect, useState } from "preact/hooks";
import type { Code } from "../../report/handed";
import { reportsOf, type EffectiveReport } from "../../report/effective";
import { AnyOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { timeOf } from "../labels";
import { whatSaid } from "../log/said";
import type { CarScreen } from "../screen";
import { codes as words } from "../words/handover";
import { Codes } from "./Codes";
import "./handover.css";

export function CodesScreen({ state, setup, car, actions }: CarScreen) {
  const reports = reportsOf(state.entries, car);
  const { subject } = state.route;
  const isUnsent = (report: EffectiveReport) => report.sending === "waiting";
  const first = () => reports.filter((report) => (subject ? report.report === subject : isUnsent(report)));
  const [ticked, setTicked] = useState(() => first().map((report) => report.report));
  const toggle = (report: string, on: boolean) =>
    setTicked(on ? [...ticked, report] : ticked.filter((one) => one !== report));
  const label = (report: EffectiveReport) => {
    const said = `${whatSaid(report.body, setup.car_map)}, ${timeOf(setup, report.at)}`;
    return isUnsent(report) ? `${said}, ${words.unsent}` : said;
  };
  // The unsent first: they are what the other phone lacks.
  const listed = [...reports.filter(isUnsent), ...reports.filter((report) => !isUnsent(report))];
  return (
    <div class="incar stack">
      <h1>{words.title}</h1>
      <Shown ticked={ticked} codesFor={actions.codesFor} />
      <p>{words.how}</p>
      {listed.length === 0 && <p>{words.none}</p>}
      {listed.length > 0 && (
        <AnyOf
          legend={words.which}
          options={listed.map((report) => ({ value: report.report, label: label(report) }))}
          chosen={ticked}
          onToggle={toggle}
        />
      )}
      <p class="soft">{words.photos}</p>
    </div>
  );
}

function Shown({ ticked, codesFor }: { ticked: string[]; codesFor: (reports: string[]) => Promise<Code[] | null> }) {
  const { problem, run } = usePending();
  const [drawn, setDrawn] = useState<{ of: string; codes: Code[] | null } | null>(null);
  const of = ticked.join();
  useEffect(() => {
    let left = false;
    if (of) {
      run(async () => {
        const codes = await codesFor(of.split(","));
        if (!left) setDrawn({ of, codes });
      });
    }
    return () => {
      left = true;
    };
  }, [of]);
  if (!of) return <p>{words.nothing}</p>;
  if (problem) return <ProblemLine text={problem} />;
  if (drawn?.of !== of) return <p role="status">{words.drawing}</p>;
  return drawn.codes ? <Codes key={of} codes={drawn.codes} /> : <p class="warn">{words.tooMany}</p>;
}
