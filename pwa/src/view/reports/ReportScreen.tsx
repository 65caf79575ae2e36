/** One report with all that can be done to it. */

import { reportsOf } from "../../report/effective";
import { voicesBySubject } from "../../report/voices";
import type { CarScreen } from "../screen";
import { log } from "../words/log";
import { ReportCard } from "./ReportCard";
import "./reports.css";

export function ReportScreen({ state, setup, car, actions }: CarScreen) {
  const report = reportsOf(state.entries, car).find((one) => one.report === state.route.subject);
  if (!report) {
    return (
      <div class="stack">
        <h1>{log.amendTitle}</h1>
        <p>{log.notFound}</p>
        <a class="button" href="#/reports">
          {log.toReports}
        </a>
      </div>
    );
  }
  const voices = voicesBySubject(state.entries, car, setup, state.identity?.person).get(report.report) ?? [];
  return (
    <div class="incar stack">
      <ReportCard {...{ report, setup, actions, voices }} />
    </div>
  );
}
