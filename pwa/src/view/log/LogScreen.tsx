/** Log a hit: place, what is damaged, save. Amends a report where the route names one. */

import { useEffect } from "preact/hooks";
import type { EventSetup, ReportBody } from "../../kit/api";
import type { Actions, AppState } from "../../flow/model";
import { log } from "../words/log";
import { lazy } from "../bits/lazy";
import { FirstDay } from "./FirstDay";
import "./log.css";
import { PickZone } from "./PickZone";
import type { WritingProps } from "./Writing";
import { type NewReport, useNewReport } from "./useNewReport";

const Amend = lazy<LogScreen & { report: string }>(async () => (await import("./Amend")).Amend);
// What comes after the first tap: one piece, so that who can write can save, and sees that it was saved.
const Writing = lazy<WritingProps>(async () => (await import("./Writing")).Writing);
const SharedScreen = lazy<LogScreen>(async () => (await import("./SharedScreen")).SharedScreen);

export interface LogScreen {
  state: AppState;
  setup: EventSetup;
  car: string;
  actions: Actions;
}

/** The report that the route names is changed; without one a new report is begun, with what was shared if the route says so. */
export function LogScreen(props: LogScreen) {
  const { state, car } = props;
  const { subject } = state.route;
  if (subject === "shared") return <SharedScreen {...props} />;
  if (subject === null) return <WriteReport key={car} {...props} />;
  return <Amend key={subject} {...props} report={subject} />;
}

function WriteReport(props: LogScreen) {
  const report = useNewReport(props);
  const { step, top, endFirstDay } = report;
  useEffect(Writing.ahead, []);
  return (
    <div class="incar stack">
      <Title {...report} />
      {report.isFirstDay && (
        <FirstDay
          onEnd={() => {
            endFirstDay();
            top.current?.focus({ preventScroll: true });
          }}
        />
      )}
      <AtStep key={step.at === "saved" ? step.report : ""} {...props} {...report} />
    </div>
  );
}

function Title({ draft, step, top, begin }: NewReport) {
  const isFirst = step.at === "zone";
  return (
    <div class={step.at === "form" ? "unseen" : "top-line"}>
      <div>
        <h1 ref={top} tabIndex={-1}>
          {log.title}
        </h1>
        {isFirst && (
          <p class="soft" role="status">
            {draft.photos.length ? log.photoTaken(draft.photos.length) : log.whereHit}
          </p>
        )}
      </div>
      {isFirst && (
        <button type="button" class="button alarm" onClick={() => begin({ ...draft, drives: "no" }, { at: "stopped" })}>
          {log.stopped}
        </button>
      )}
    </div>
  );
}

function AtStep(props: WritingProps) {
  const { state, setup, car, actions, draft, step, change, begin } = props;
  if (step.at !== "zone") return <Writing {...props} />;
  const toForm = (next: ReportBody) => begin(next, { at: "form" });
  return <PickZone {...{ state, setup, car, actions, draft }} onPick={toForm} onPhoto={change} />;
}
