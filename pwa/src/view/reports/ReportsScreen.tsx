/** Reports as they stand on this phone: own ones first, refused entries before all. */

import { reportsOf } from "../../report/effective";
import { voicesBySubject } from "../../report/voices";
import type { CarScreen } from "../screen";
import { reports as words } from "../words/reports";
import { NothingSeenList } from "./NothingSeenList";
import { Refused } from "./Refused";
import { ReportCard } from "./ReportCard";
import "./reports.css";

export function ReportsScreen({ state, setup, car, actions }: CarScreen) {
  const all = reportsOf(state.entries, car);
  // One's own also from another phone: who changed phones still sees what he said.
  const own = ({ mine, versions }: (typeof all)[number]) =>
    mine || versions.some((version) => version.person === state.identity?.person);
  const mine = all.filter(own);
  // On the road, where the event forbids advice, only what one said oneself is shown.
  const others = state.advice ? all.filter((report) => !own(report)) : [];
  const voices = voicesBySubject(state.entries, car, setup, state.identity?.person);
  const card = (report: (typeof all)[number]) => (
    <ReportCard key={report.report} voices={voices.get(report.report) ?? []} {...{ report, setup, actions }} />
  );
  return (
    <div class="incar stack">
      <h1>{words.title}</h1>
      <Refused entries={state.entries.filter((held) => held.sending === "attention")} setup={setup} />
      <div class="row even">
        <a class="button" href="#/codes">
          {words.codes}
        </a>
        <a class="button" href="#/handover">
          {words.scan}
        </a>
        <a class="button" href="#/incidents">
          {words.incidents}
        </a>
      </div>
      {mine.length === 0 && <p>{words.none}</p>}
      <ul class="stack">{mine.map(card)}</ul>
      <NothingSeenList state={state} setup={setup} car={car} actions={actions} />
      {others.length > 0 && (
        <details>
          <summary>{words.others(others.length)}</summary>
          <ul class="stack">{others.map(card)}</ul>
        </details>
      )}
    </div>
  );
}
