/** What comes after the place was tapped: the form, the card that says that it is kept, the card of a car that has stopped. */

import type { ReportBody } from "../../kit/api";
import { log } from "../words/log";
import { Form } from "./Form";
import type { LogScreen } from "./LogScreen";
import { Saved } from "./Saved";
import { StopCard } from "./StopCard";
import type { NewReport } from "./useNewReport";

export type WritingProps = LogScreen & NewReport;

export function Writing({ state, setup, car, actions, draft, step, ...report }: WritingProps) {
  const shared = { state, setup, car, actions };
  const toForm = (next: ReportBody) => report.begin(next, { at: "form" });
  if (step.at === "stopped") {
    const next = draft.zone === null ? "zone" : "form";
    return <StopCard emergency={setup.emergency} onGo={() => report.go({ at: next })} />;
  }
  if (step.at === "saved") {
    return <Saved {...shared} report={step.report} said={step.said} onAgain={report.again} onOtherSide={toForm} />;
  }
  return (
    <Form
      {...shared}
      draft={draft}
      onChange={report.change}
      onSave={report.save}
      saveLabel={log.save}
      onStopped={() => report.go({ at: "stopped" })}
      onOtherPlace={() => report.go({ at: "zone" })}
    />
  );
}
