/** The guided path: its steps at the side, one of them open, and the way on. Each can be left and taken up again. */

import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { Actions, AppState } from "../../flow/model";
import { after, isDone, OPTIONAL, STEPS, type Step } from "../../setup/guide";
import { RATE_FILES, VAN_FILE, withFiles } from "../../setup/pattern";
import { isBlank } from "../../setup/table";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { guide as words } from "../words/guide";
import { addressOf } from "./address";
import { InviteList } from "./InviteList";
import { UploadAll } from "./Transfer";
import type { Editing } from "./useSetup";
import "./guide.css";

interface GuideProps {
  state: AppState;
  actions: Actions;
  editing: Editing;
  step: Step;
  /** The section that the step fills in, as it stands by itself. */
  children: ComponentChildren;
}

export function Guide({ state, actions, editing, step, children }: GuideProps) {
  const next = after(step);
  return (
    <div class="guide">
      <StepList editing={editing} step={step} />
      <div class="stack">
        <p>{words.how[step]}</p>
        <Besides actions={actions} editing={editing} step={step} />
        {step === "invite" ? <InviteList state={state} actions={actions} event={editing.event} /> : children}
        {next && step !== "changes" && (
          <a class="button main" href={addressOf(editing.event, `guide/${next}`)}>
            {words.next(words.step[next])}
          </a>
        )}
        {step === "invite" ? (
          <a class="button" href="#/more">
            {words.finish}
          </a>
        ) : (
          <p class="soft">{words.leave}</p>
        )}
      </div>
    </div>
  );
}

function StepList({ editing, step }: { editing: Editing; step: Step }) {
  return (
    <nav aria-label={words.steps}>
      <ol class="steps-list">
        {STEPS.map((one) => (
          <li key={one}>
            <a
              class="section"
              href={addressOf(editing.event, `guide/${one}`)}
              aria-current={one === step ? "step" : undefined}
            >
              <span class="strong">{words.step[one]}</span>
              <span class="soft">
                {isDone(one, editing.book, !editing.draft)
                  ? `✓ ${words.done}`
                  : OPTIONAL.includes(one)
                    ? words.optional
                    : ""}
              </span>
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}

type Besides = Pick<GuideProps, "actions" | "editing" | "step">;

/** What fills a step without typing: a file, or what ships with the package. */
function Besides({ actions, editing, step }: Besides) {
  const take = { editing, sampleFiles: actions.sampleFiles };
  if (step === "event") return <UploadAll editing={editing} />;
  if (step === "rates") return <Take {...take} label={words.takeRates} begin={RATE_FILES} table="operations" />;
  if (step === "van") return <Take {...take} label={words.takeVan} begin={VAN_FILE} table="van" />;
  return null;
}

interface TakeProps extends Pick<Actions, "sampleFiles"> {
  editing: Editing;
  label: string;
  /** How the names of the files begin that are taken. */
  begin: string;
  /** The table that is counted. */
  table: string;
}

function Take({ editing, label, begin, table, sampleFiles }: TakeProps) {
  const { busy, problem, run } = usePending();
  const [taken, setTaken] = useState(false);
  const rows = (editing.book.tables[table]?.rows ?? []).filter((row) => !isBlank(row)).length;
  const take = () =>
    run(async () => {
      editing.change(withFiles(editing.book, await sampleFiles(), begin));
      setTaken(true);
    });
  return (
    <div class="stack">
      <div class="row">
        <button type="button" class="button" disabled={busy} onClick={take}>
          {busy ? words.taking : label}
        </button>
        <span role="status" class="soft">
          {taken ? words.taken(rows) : rows > 0 ? words.replaces(rows) : ""}
        </span>
      </div>
      <ProblemLine text={problem} />
    </div>
  );
}
