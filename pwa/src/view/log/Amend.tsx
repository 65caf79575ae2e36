/** A report that is changed: all its fields open, saved as a version that replaces those that stand. */

import { useState } from "preact/hooks";
import { NoReport } from "../bits/NoReport";
import type { ReportBody } from "../../kit/api";
import { type EffectiveReport, reportsOf } from "../../report/effective";
import { log } from "../words/log";
import { Form } from "./Form";
import type { LogScreen } from "./LogScreen";
import { merged } from "./merged";

export function Amend({ report: subject, ...props }: LogScreen & { report: string }) {
  const report = reportsOf(props.state.entries, props.car).find((one) => one.report === subject);
  if (report) return <Change {...props} report={report} />;
  return <NoReport />;
}

function Change({ state, setup, actions, report }: LogScreen & { report: EffectiveReport }) {
  const [draft, setDraft] = useState(() => merged(report, setup.car_map));
  const save = async (said: ReportBody) => {
    await actions.amendReport(report.report, said);
    actions.go("/reports");
  };
  return (
    <div class="incar stack">
      <h1>{log.amendTitle}</h1>
      {report.two_versions && <p class="warn">{log.replacesBoth}</p>}
      <Form
        {...{ state, setup, actions, draft }}
        onChange={setDraft}
        onSave={save}
        saveLabel={log.saveChange}
        amending
      />
    </div>
  );
}
