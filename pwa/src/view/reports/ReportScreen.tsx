/** One report with all that can be done to it. */

import { reportsOf } from "../../report/effective";
import { voicesBySubject } from "../../report/voices";
import { NoReport } from "../bits/NoReport";
import type { CarScreen } from "../screen";
import { ReportCard } from "./ReportCard";
import "./reports.css";

export function ReportScreen({ state, setup, car, actions }: CarScreen) {
  const report = reportsOf(state.entries, car).find((one) => one.report === state.route.subject);
  if (!report) {
    return <NoReport />;
  }
  const voices = voicesBySubject(state.entries, car, setup, state.identity?.person).get(report.report) ?? [];
  return (
    <div class="incar stack">
      <ReportCard {...{ report, setup, actions, voices }} />
    </div>
  );
}
