/** Log a hit: place, what is damaged, save. Amends a report where the route names one. */

import { useState } from "preact/hooks";
import type { EventSetup, ReportBody } from "../../kit/api";
import type { Actions, AppState } from "../../flow/model";
import { reportsOf, type EffectiveReport } from "../../report/effective";
import { log } from "../words/log";
import { lazy } from "../bits/lazy";
import { FirstDay } from "./FirstDay";
import { Form } from "./Form";
import "./log.css";
import { merged } from "./merged";
import { PickZone } from "./PickZone";
import { Saved } from "./Saved";
import { StopCard } from "./StopCard";
import { type NewReport, useNewReport } from "./useNewReport";

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
  const subject = state.route.subject;
  if (subject === "shared") return <SharedScreen {...props} />;
  if (subject === null) return <WriteReport key={car} {...props} />;
  const report = reportsOf(state.entries, car).find((one) => one.report === subject);
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
  return <Amend key={subject} {...props} report={report} />;
}

function Amend({ state, setup, actions, report }: LogScreen & { report: EffectiveReport }) {
  const [draft, setDraft] = useState(() => merged(report, setup.car_map));
  const save = async () => {
    await actions.amendReport(report.report, draft);
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

function WriteReport(props: LogScreen) {
  const report = useNewReport(props);
  const { step, top, endFirstDay } = report;
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

function AtStep({ state, setup, car, actions, draft, step, ...report }: LogScreen & NewReport) {
  const shared = { state, setup, car, actions };
  const toForm = (next: ReportBody) => report.begin(next, { at: "form" });
  if (step.at === "zone") return <PickZone {...shared} draft={draft} onPick={toForm} onPhoto={report.change} />;
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
