/** All sections of a set-up with what is in each, the draft's state, and files in and out. */

import { useState } from "preact/hooks";
import type { Actions, AppState } from "../../flow/model";
import { changedTables } from "../../setup/changes";
import { nextStep } from "../../setup/guide";
import { CAR_MAP_FILE, isForm, specOf } from "../../setup/specs";
import { keepsEarlier, withNewer } from "../../setup/newer_defaults";
import { ownMap } from "../../setup/own_map";
import { isBlank } from "../../setup/table";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { guide } from "../words/guide";
import { setup as words } from "../words/setup";
import { Invite } from "./Invite";
import { AllFiles } from "./Transfer";
import { addressOf } from "./address";
import { KeptLine, Newer } from "./DraftLines";
import type { Editing } from "./useSetup";

interface OverviewProps {
  state: AppState;
  actions: Actions;
  editing: Editing;
  /** What was just put in force, in words. */
  done: string | null;
  onDone: (text: string | null) => void;
}

export function Overview({ state, actions, editing, done, onDone }: OverviewProps) {
  const { event, book } = editing;
  const changed = editing.draft ? changedTables(editing.base, book) : new Map<string, number>();
  const inForce = state.setup?.event === event ? state.setup : null;
  const hasMap = book.present.includes(CAR_MAP_FILE);
  return (
    <div class="stack">
      <h1>
        {words.title}: {editing.name}
      </h1>
      <Choose state={state} actions={actions} event={event} />
      <div role="status" class="problem">
        {done && <p class="strong">{done}</p>}
      </div>
      <DraftBar state={state} editing={editing} onDone={onDone} />
      <NewerLists editing={editing} />
      <div class="groups">
        {words.groups.map((group) => (
          <section key={group.name} class="sheet" aria-label={group.name}>
            <h2>{group.name}</h2>
            {group.name === "Car map" && !hasMap ? (
              <>
                <p>{words.mapUsual}</p>
                {state.setup && (
                  <button
                    type="button"
                    class="button"
                    onClick={() => state.setup && editing.change(ownMap(book, state.setup.car_map))}
                  >
                    {words.mapOwn}
                  </button>
                )}
              </>
            ) : (
              <ul class="sections">
                {group.tables.map((table) => (
                  <Section key={table} table={table} editing={editing} changed={changed.get(table) ?? 0} />
                ))}
              </ul>
            )}
          </section>
        ))}
      </div>
      {inForce && <Invite people={inForce.people} invitePerson={actions.invitePerson} />}
      <AllFiles editing={editing} />
      <a class="button" href={addressOf(event, `guide/${nextStep(book, !editing.draft)}`)}>
        {guide.link}
      </a>
      <a class="button" href={addressOf(event, "new")}>
        {words.next}
      </a>
    </div>
  );
}

function Section({ table, editing, changed }: { table: string; editing: Editing; changed: number }) {
  const spec = specOf(table);
  const rows = editing.book.tables[table]?.rows.filter((row) => !isBlank(row)).length ?? 0;
  const faults = editing.faults.filter((one) => one.table === table).length;
  return (
    <li>
      <a class="section" href={addressOf(editing.event, table)}>
        <span class="strong">{words.table[table] ?? table}</span>
        <span class="marks">
          {faults > 0 && <span class="tag alarm">{words.faultCount(faults)}</span>}
          {changed > 0 && <span class="tag must">{words.changedRows(changed)}</span>}
          <span class="soft">{spec && isForm(spec) ? words.form : words.rows(rows)}</span>
        </span>
      </a>
    </li>
  );
}

/** The program brings a newer car map and check lists than the event began with: taking them is a draft like any other. */
function NewerLists({ editing }: { editing: Editing }) {
  const { earlier, book, change } = editing;
  if (!earlier || !keepsEarlier(book, earlier)) return null;
  return (
    <section class="sheet" aria-label={words.latest}>
      <h2>{words.latest}</h2>
      <p>{words.latestHow}</p>
      <button type="button" class="button" onClick={() => change(withNewer(book, earlier))}>
        {words.latestDo}
      </button>
    </section>
  );
}

function Choose({ state, actions, event }: { state: AppState; actions: Actions; event: string }) {
  const fresh = state.drafts.filter((one) => !state.files.some((held) => held.event === one.event));
  if (state.files.length + fresh.length < 2) return null;
  const name = (id: string) => state.events.find((one) => one.event === id)?.name ?? id;
  return (
    <label>
      <span class="label">{words.event}</span>
      <select value={event} onChange={(change) => actions.go(addressOf(change.currentTarget.value))}>
        {state.files.map((one) => (
          <option key={one.event} value={one.event}>
            {name(one.event)}
          </option>
        ))}
        {fresh.map((one) => (
          <option key={one.event} value={one.event}>
            {words.draftOf(one.book.tables.event?.rows[0]?.cells.name ?? one.event)}
          </option>
        ))}
      </select>
    </label>
  );
}

function DraftBar({ state, editing, onDone }: { state: AppState; editing: Editing; onDone: (text: null) => void }) {
  const [sure, setSure] = useState(false);
  const { busy, problem, run } = usePending();
  if (!editing.draft) return <p class="soft">{words.inForce}</p>;
  return (
    <section class="sheet draft" aria-label={words.draft}>
      <p>
        <span class="strong">{words.draft}</span> <KeptLine editing={editing} />
      </p>
      <Newer editing={editing} />
      <div class="row">
        <a class="button main" href={addressOf(editing.event, "changes")} onClick={() => onDone(null)}>
          {words.see}
        </a>
        {!sure && (
          <button type="button" class="button" onClick={() => setSure(true)}>
            {words.drop}
          </button>
        )}
      </div>
      {sure && (
        <div class="row">
          <span>{words.dropSure}</span>
          <button
            type="button"
            class="button"
            disabled={busy}
            onClick={() =>
              run(async () => {
                await editing.drop();
                if (editing.isNew) location.hash = addressOf(state.setup?.event ?? "");
              })
            }
          >
            {words.dropDo}
          </button>
          <button type="button" class="button" onClick={() => setSure(false)}>
            {words.dropNot}
          </button>
        </div>
      )}
      <ProblemLine text={problem} />
    </section>
  );
}
