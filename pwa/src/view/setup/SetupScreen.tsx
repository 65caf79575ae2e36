/** Setting up an event: which one, and which of its sections. */

import { useState } from "preact/hooks";
import type { AppState } from "../../flow/model";
import type { ScreenProps } from "../screen";
import { STEPS, stepNamed } from "../../setup/guide";
import { isForm, specOf } from "../../setup/specs";
import { type Table, tableOf } from "../../setup/table";
import { setup as words } from "../words/setup";
import { Agreements } from "./Agreements";
import { Changes } from "./Changes";
import { Guide } from "./Guide";
import { FormPage } from "./FormPage";
import { NewEvent } from "./NewEvent";
import { Overview } from "./Overview";
import { TablePage } from "./TablePage";
import { type Editing, useSetup } from "./useSetup";
import "./setup.css";

export function SetupScreen({ state, actions }: ScreenProps) {
  if (!state.identity?.roles.includes("manager")) {
    return (
      <div class="stack">
        <h1>{words.title}</h1>
        <p>{words.onlyManager}</p>
      </div>
    );
  }
  const [event = "", page = "", part = ""] = state.route.subject?.split("/") ?? [];
  const chosen = event || (state.setup?.event ?? state.drafts[0]?.event ?? "");
  return <OfEvent key={chosen} state={state} actions={actions} event={chosen} page={page} part={part} />;
}

interface OfEventProps extends ScreenProps {
  event: string;
  page: string;
  /** What of the page, such as `table` of what is a form elsewhere. */
  part: string;
}

function OfEvent({ state, actions, event, page, part }: OfEventProps) {
  const editing = useSetup(state, actions, event);
  if (page === "guide" && editing) {
    const step = stepNamed(part) ?? STEPS[0];
    return (
      <Guide key={step} {...{ state, actions, editing, step }}>
        <Section {...{ state, actions, event, editing, page: step, part: "", next: "guide/invite" }} />
      </Guide>
    );
  }
  return <Section {...{ state, actions, event, editing, page, part, next: "" }} />;
}

interface SectionProps extends OfEventProps {
  editing: Editing | null;
  /** The page that follows once all is in force. */
  next: string;
}

function Section({ state, actions, event, page, part, editing, next }: SectionProps) {
  const [done, setDone] = useState<string | null>(null);
  if (page === "new" || (!editing && page === "first")) {
    return <NewEvent state={state} actions={actions} last={page === "new" ? editing : null} />;
  }
  if (!editing) return <Nothing state={state} event={event} />;
  if (page === "changes")
    return <Changes state={state} actions={actions} editing={editing} onDone={setDone} next={next} />;
  if (page === "agreements" && part !== "table") return <Agreements editing={editing} />;
  const spec = specOf(page);
  if (spec && isForm(spec)) return <FormPage key={page} editing={editing} spec={spec} now={state.now} />;
  if (spec) return <TablePage key={page} {...{ editing, spec }} usual={usualOf(page, state)} />;
  return <Overview state={state} actions={actions} editing={editing} done={done} onDone={setDone} />;
}

/** The check lists in force, as rows to begin with; of other tables the package brings nothing. */
function usualOf(page: string, { setup }: AppState): Table | null {
  if (page !== "looks") return null;
  const rows = setup?.check_lists ?? [];
  return tableOf(
    ["group", "check", "must", "at"],
    rows.map(({ group, check, must, at }) => ({ group, check, must: must ? "true" : "", at: at ?? "" })),
  );
}

function Nothing({ state, event }: { state: AppState; event: string }) {
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      <p>{event ? words.noFiles : words.none}</p>
      {state.events.length === 0 && (
        <a class="button main" href="#/setup/-/first">
          {words.first}
        </a>
      )}
    </div>
  );
}
