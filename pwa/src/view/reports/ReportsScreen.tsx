/** Reports as they stand on this phone, as rows by stage, the newest first; refused entries before all. */

import { useState } from "preact/hooks";
import type { EventSetup } from "../../kit/api";
import { grouped } from "../../kit/grouped";
import { hasWords } from "../../kit/matching";
import { reportsOf, type EffectiveReport } from "../../report/effective";
import { ListSearch } from "../bits/ListSearch";
import { useOpen } from "../bits/useOpen";
import { voicesBySubject } from "../../report/voices";
import { personName } from "../labels";
import { whatSaid } from "../log/said";
import type { CarScreen } from "../screen";
import { Button, IconButton } from "../ui/Button";
import { EmptyState } from "../ui/Card";
import { List, SectionHeader } from "../ui/Row";
import { common } from "../words/common";
import { reports as words } from "../words/reports";
import { MoreReports } from "./MoreReports";
import { NothingSeenList } from "./NothingSeenList";
import { Refused } from "./Refused";
import { ReportRow } from "./ReportRow";
import "./reports.css";

export function ReportsScreen(props: CarScreen) {
  const { state, setup, car, actions } = props;
  const all = reportsOf(state.entries, car);
  // One's own also from another phone: who changed phones still sees what they said.
  const own = ({ mine, versions }: EffectiveReport) =>
    mine || versions.some((version) => version.person === state.identity?.person);
  // On the road, where the event forbids advice, only what one said oneself is shown.
  const shown = state.advice ? [...all] : all.filter(own);
  const [typed, setTyped] = useState("");
  const found = shown.filter((report) => hasWords(textOf(report, setup), typed));
  const waiting = all.filter((report) => own(report) && report.sending === "waiting").length;
  return (
    <div class="reports incar">
      <h1 class="unseen">{words.title}</h1>
      <Head count={shown.length} waiting={waiting} />
      {shown.length > 0 && <ListSearch typed={typed} none={found.length === 0} onType={setTyped} />}
      <Refused entries={state.entries.filter((held) => held.sending === "attention")} setup={setup} />
      {shown.length === 0 && <None />}
      <ByStage {...props} reports={found} />
      <NothingSeenList state={state} setup={setup} car={car} actions={actions} />
    </div>
  );
}

/** What a row says, and what was noted with it. */
const textOf = ({ body, person }: EffectiveReport, setup: EventSetup) =>
  [whatSaid(body, setup.car_map), body.note, body.stage ?? "", personName(setup, person)].join(" ");

function Head({ count, waiting }: { count: number; waiting: number }) {
  const more = useOpen();
  return (
    <div class="reports-head">
      <p>
        <strong>{words.count(count)}</strong> {waiting > 0 && words.waiting(waiting)}
      </p>
      <IconButton icon="more" label={words.more} expanded={more.isOpen} onClick={more.open} />
      {more.isOpen && <MoreReports onClose={more.close} />}
    </div>
  );
}

const None = () => (
  <EmptyState
    icon="reports"
    title={words.noneTitle}
    action={
      <Button href="#/log" kind="primary" size="car">
        {words.logOne}
      </Button>
    }
  >
    {words.none}
  </EmptyState>
);

function ByStage({ reports, ...props }: CarScreen & { reports: EffectiveReport[] }) {
  const { state, setup, car } = props;
  const voices = voicesBySubject(state.entries, car, setup, state.identity?.person);
  const stageOf = ({ body }: EffectiveReport) => body.stage ?? common.where[body.where] ?? body.where;
  const current = state.route.screen === "report" ? state.route.subject : null;
  return (
    <>
      {[...grouped(reports, stageOf)].map(([stage, here]) => {
        const id = `stage-${stage.replaceAll(" ", "-")}`;
        return (
          <section key={stage} aria-labelledby={id}>
            <SectionHeader id={id} title={stage} meta={String(here.length)} />
            <List labelledBy={id}>
              {here.map((report) => (
                <ReportRow
                  key={report.report}
                  {...{ report, setup }}
                  actions={props.actions}
                  hasVoice={(voices.get(report.report) ?? []).length > 0}
                  current={report.report === current}
                />
              ))}
            </List>
          </section>
        );
      })}
    </>
  );
}
