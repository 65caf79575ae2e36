/** The car has retired: where and how, who recovered it, whether it restarts and by when; then what the restart needs. */

import { useState } from "preact/hooks";
import { reportsOf } from "../../report/effective";
import { entriesOf } from "../../report/lists";
import { stageNow } from "../../report/prefill";
import { READY_BY, type Retirement, retirementOf } from "../../report/retirement";
import { draftOf, type RetirementDraft } from "../../report/retirement_form";
import { isWorking } from "../../report/road";
import { OneOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { ReasonField } from "../bits/ReasonField";
import { Stepper } from "../bits/Stepper";
import { usePending } from "../bits/usePending";
import { clockOnDay, personName, timeOf, zoneLabel } from "../labels";
import { steppedKm } from "../log/draft";
import { whatSaid } from "../log/said";
import type { CarScreen } from "../screen";
import { Button } from "../ui/Button";
import { Banner } from "../ui/Card";
import { Dock } from "../ui/Dock";
import { SelectField } from "../ui/Field";
import { List, Row } from "../ui/Row";
import { common } from "../words/common";
import { queue } from "../words/queue";
import { retired as words } from "../words/retired";
import "./retired.css";

export function RetiredScreen(props: CarScreen) {
  const { state, setup, car, actions } = props;
  const entries = entriesOf(state.entries);
  const held = retirementOf(entries, car, setup);
  const [draft, setDraft] = useState(() => draftOf(held, stageNow(entries, car, setup, state.now), state.now));
  const { busy, problem, run } = usePending();
  const change = (more: Partial<RetirementDraft>) => setDraft({ ...draft, ...more });
  const clock = readyText(props, draft.by_ms);
  return (
    <div class="incar stack retired">
      <h1>{words.title}</h1>
      {held ? <Said {...props} held={held} /> : <p>{words.peopleFirst}</p>}
      {held?.now.state === "restarts" && <Next {...props} by_ms={held.now.by_ms} />}
      <Where {...props} draft={draft} change={change} />
      <Cause {...props} draft={draft} change={change} />
      <Recovered draft={draft} change={change} />
      <Restart {...props} draft={draft} change={change} />
      {held && (
        <Button kind="text" busy={busy} onClick={() => run(() => actions.goOn())}>
          {words.goOn}
        </Button>
      )}
      <ProblemLine text={problem} />
      <Dock
        primary={{
          children: draft.restart === "yes" ? words.saveRestart(clock) : words.save,
          busy,
          onClick: () => run(() => actions.retireCar(draft)),
        }}
      />
    </div>
  );
}

type Part = CarScreen & { draft: RetirementDraft; change: (more: Partial<RetirementDraft>) => void };

/** The time to be ready by. */
const readyText = ({ state, setup }: CarScreen, by_ms: number) => clockOnDay(setup, by_ms, state.now);

function Said({ held, setup }: CarScreen & { held: Retirement }) {
  const last = held.now.state === "restarts" ? held.restarts : held.retired;
  return (
    <Banner tone="caution" title={words.isRetired}>
      {last && words.said(personName(setup, last.person), timeOf(setup, last.at))}
    </Banner>
  );
}

function Next({ by_ms, ...props }: CarScreen & { by_ms: number }) {
  const { state, actions } = props;
  const plans = isWorking(state.identity?.roles ?? []);
  const plan = () => {
    void actions.choosePlanned(READY_BY);
    actions.go("plan");
  };
  return (
    <section aria-label={words.next}>
      <List>
        {plans && <Row title={words.plan(readyText(props, by_ms))} meta={words.planAbout} onOpen={plan} />}
        <Row title={words.sheet} meta={words.sheetAbout} href="#/documents" />
        {state.advice && <Row title={queue.title} meta={words.queueAbout} href="#/queue" />}
      </List>
    </section>
  );
}

function Where({ setup, draft, change }: Part) {
  const stages = setup.stages.map(({ stage }) => ({ value: stage, label: stage }));
  const stage_km = setup.stages.find((one) => one.stage === draft.stage)?.km ?? null;
  return (
    <section class="stack" aria-label={words.stage}>
      <SelectField
        label={words.stage}
        value={draft.stage ?? ""}
        options={[{ value: "", label: words.noStage }, ...stages]}
        onChange={(stage) => change({ stage: stage || null, km: null })}
      />
      {draft.stage !== null && (
        <div>
          <span class="label">{words.km}</span>
          <Stepper
            label={words.km}
            shown={draft.km === null ? "–" : common.km(draft.km)}
            steps={[-1, -0.1, 0.1, 1].map((by) => ({ by, label: by > 0 ? `+${by}` : `−${-by}` }))}
            onStep={(by) => change({ km: steppedKm(draft.km, by, stage_km) })}
          />
          {draft.km !== null && (
            <Button kind="text" onClick={() => change({ km: null })}>
              {words.kmUnknown}
            </Button>
          )}
        </div>
      )}
      <OneOf
        legend={words.drives}
        value={draft.drives}
        options={(["well", "poorly", "no"] as const).map((value) => ({ value, label: common.drives[value] ?? value }))}
        onPick={(drives) => change({ drives })}
      />
    </section>
  );
}

/** The reports that may have stopped it, newest first. */
const MOST_CAUSES = 8;

function Cause({ state, setup, car, draft, change }: Part) {
  const all = reportsOf(state.entries, car).filter((one) => !one.withdrawn);
  const shown = all.filter((one, place) => place < MOST_CAUSES || one.report === draft.cause);
  const options = shown.map(({ report, body, at }) => {
    const said = body.findings.length + body.symptoms.length > 0;
    const what = said ? whatSaid(body, setup.car_map) : zoneLabel(setup.car_map, body.zone);
    return { value: report, label: [timeOf(setup, at), what].join(" · ") };
  });
  return (
    <SelectField
      label={words.cause}
      value={draft.cause ?? ""}
      options={[{ value: "", label: words.noCause }, ...options]}
      onChange={(report) => change({ cause: report || null })}
    />
  );
}

function Recovered({ draft, change }: Pick<Part, "draft" | "change">) {
  return (
    <ReasonField
      legend={words.recovered}
      other={words.recoveredOwn}
      usual={[...words.recoverers]}
      reason={draft.recovered_by}
      onChange={(recovered_by) => change({ recovered_by })}
    />
  );
}

const MINUTE_MS = 60_000;

function Restart(props: Part) {
  const { draft, change } = props;
  const answers = ["yes", "no", "unknown"] as const;
  return (
    <section class="stack" aria-label={words.restart}>
      <OneOf
        legend={words.restart}
        value={draft.restart}
        options={answers.map((value) => ({ value, label: words.restarts[value] }))}
        onPick={(restart) => change({ restart })}
      />
      {draft.restart === "yes" && (
        <div>
          <span class="label">{words.readyBy}</span>
          <Stepper
            label={words.readyBy}
            shown={readyText(props, draft.by_ms)}
            steps={[-60, -15, 15, 60].map((by) => ({ by, label: by > 0 ? `+${by}` : `−${-by}` }))}
            onStep={(by) => change({ by_ms: draft.by_ms + by * MINUTE_MS })}
          />
          <p class="soft">{words.readyNote}</p>
        </div>
      )}
    </section>
  );
}
