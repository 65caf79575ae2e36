/** Log a hit: place, what is damaged, save. Amends a report where the route names one. */

import { useRef, useState } from "preact/hooks";
import type { EventSetup, ReportBody } from "../../kit/api";
import type { Actions, AppState } from "../../flow/model";
import { prefill } from "../../report/prefill";
import { reportsOf, type StandingReport } from "../../report/standing";
import { log } from "../words/log";
import { lazy } from "../bits/lazy";
import { markSaid } from "../bits/saidOnce";
import { FirstDay, isFirstDay } from "./FirstDay";
import { Form } from "./Form";
import { forgetDraft, keptDraft, keepDraft } from "./keptDraft";
import "./log.css";
import { merged } from "./merged";
import { PickZone } from "./PickZone";
import { Saved } from "./Saved";
import { StopCard } from "./StopCard";

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
  if (subject === null) return <NewReport key={car} {...props} />;
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

function Amend({ state, setup, actions, report }: LogScreen & { report: StandingReport }) {
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

type Step = { at: "zone" } | { at: "stopped" } | { at: "form" } | { at: "saved"; report: string; said: ReportBody };

function NewReport({ state, setup, car, actions }: LogScreen) {
  const start = () =>
    prefill(
      state.entries.map((held) => held.entry),
      car,
      setup,
      state.now,
    );
  const [draft, setDraftState] = useState<ReportBody>(() => keptDraft(car) ?? start());
  // Photos wait for their place.
  const [step, setStep] = useState<Step>({
    at: draft.zone || (keptDraft(car) && !draft.photos.length) ? "form" : "zone",
  });
  const [firstDay, setFirstDay] = useState(() => isFirstDay(state));
  const top = useRef<HTMLHeadingElement>(null);
  const endFirstDay = () => {
    if (firstDay) markSaid("tour");
    setFirstDay(false);
  };
  const setDraft = (next: ReportBody) => {
    keepDraft(car, next);
    setDraftState(next);
  };
  const go = (next: Step) => {
    setStep(next);
    endFirstDay();
    // The other steps have a title of their own that takes it.
    if (next.at === "zone") top.current?.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  };
  const begin = (next: ReportBody, to: Step) => {
    setDraft(next);
    go(to);
  };
  const save = async () => {
    const report = await actions.fileReport(draft);
    forgetDraft(car);
    go({ at: "saved", report, said: draft });
  };
  const again = () => {
    forgetDraft(car);
    setDraftState(start());
    go({ at: "zone" });
  };
  const shared = { state, setup, car, actions };
  return (
    <div class="incar stack">
      <div class={step.at === "form" ? "unseen" : "top-line"}>
        <div>
          <h1 ref={top} tabIndex={-1}>
            {log.title}
          </h1>
          {step.at === "zone" && (
            <p class="soft" role="status">
              {draft.photos.length ? log.photoTaken(draft.photos.length) : log.whereHit}
            </p>
          )}
        </div>
        {step.at === "zone" && (
          <button
            type="button"
            class="button alarm"
            onClick={() => begin({ ...draft, drives: "no" }, { at: "stopped" })}
          >
            {log.stopped}
          </button>
        )}
      </div>
      {firstDay && (
        <FirstDay
          onEnd={() => {
            endFirstDay();
            top.current?.focus({ preventScroll: true });
          }}
        />
      )}
      {step.at === "zone" && (
        <PickZone {...shared} draft={draft} onPick={(next) => begin(next, { at: "form" })} onPhoto={setDraft} />
      )}
      {step.at === "stopped" && (
        <StopCard emergency={setup.emergency} onGo={() => go({ at: draft.zone === null ? "zone" : "form" })} />
      )}
      {step.at === "form" && (
        <Form
          {...shared}
          draft={draft}
          onChange={setDraft}
          onSave={save}
          saveLabel={log.save}
          onStopped={() => go({ at: "stopped" })}
          onOtherPlace={() => go({ at: "zone" })}
        />
      )}
      {step.at === "saved" && (
        <Saved
          key={step.report}
          {...shared}
          report={step.report}
          said={step.said}
          onAgain={again}
          onOtherSide={(next) => begin(next, { at: "form" })}
        />
      )}
    </div>
  );
}
