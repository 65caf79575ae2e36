/** What a draft changes, as the server tells it, and the button that puts it in force. */

import { useEffect } from "preact/hooks";
import type { ScreenProps } from "../screen";
import type { Change } from "../../setup/changes";
import type { Fault } from "../../setup/faults";
import type { Book } from "../../setup/table";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { setup as words } from "../words/setup";
import { FaultList } from "./FaultList";
import { Newer } from "./DraftLines";
import { addressOf } from "./address";
import { cellId, picked } from "./useFocus";
import type { Editing } from "./useSetup";

/** Rows of one table that are told one by one. */
const MOST = 60;

export interface ChangesProps extends ScreenProps {
  editing: Editing;
  onDone: (text: string) => void;
  /** The page of the event that follows once it is in force; "" for its sections. */
  next: string;
}

export function Changes({ state, actions, editing, onDone, next }: ChangesProps) {
  const looking = usePending();
  const putting = usePending();
  const { checked, draft } = editing;
  const isFresh = checked?.book === editing.book;
  const ready = isFresh && editing.faults.length === 0 && checked.difference.length > 0 && !editing.isOld;
  useEffect(() => {
    if (!isFresh) looking.run(editing.check);
  }, [editing.book]);
  const put = () =>
    putting.run(async () => {
      const { name } = editing;
      const target = await editing.put();
      onDone(words.isIn(name));
      if (editing.isNew) actions.chooseEvent(target);
      actions.go(addressOf(target, next));
    });
  const pick = (fault: Fault) => {
    picked.cell = cellId(fault.id ?? 0, fault.column);
    actions.go(addressOf(editing.event, fault.table ?? ""));
  };
  const against = draft?.of ? (state.events.find((one) => one.event === draft.of)?.name ?? draft.of) : null;
  return (
    <div class="stack">
      <a class="button quiet back" href={addressOf(editing.event)}>
        {words.back}
      </a>
      <h1>{words.changes}</h1>
      {against && <p class="soft">{words.against(against)}</p>}
      <Newer editing={editing} />
      <div role="status" class="problem">
        {looking.busy && <p>{words.checking}</p>}
      </div>
      <ProblemLine text={looking.problem} />
      {looking.problem && (
        <button type="button" class="button" onClick={() => looking.run(editing.check)}>
          {words.checkIt}
        </button>
      )}
      <FaultList editing={editing} faults={editing.faults} onPick={pick} />
      {isFresh && <FaultList editing={editing} faults={checked.warnings} taken onPick={pick} />}
      {isFresh && editing.faults.length === 0 && <Difference changes={checked.difference} />}
      {!hasManager(editing.book) && <p class="warn">{words.noManager}</p>}
      <button type="button" class="button main" disabled={!ready || putting.busy} onClick={put}>
        {putting.busy ? words.putting : words.put}
      </button>
      <ProblemLine text={putting.problem} />
    </div>
  );
}

const hasManager = ({ tables }: Book): boolean =>
  (tables.people?.rows ?? []).some((row) =>
    (row.cells.roles ?? "").split(";").some((role) => role.trim() === "manager"),
  );

function Difference({ changes }: { changes: Change[] }) {
  if (changes.length === 0) return <p>{words.nothing}</p>;
  const tables = [...new Set(changes.map((one) => one.table))];
  return (
    <>
      {tables.map((table) => (
        <TableChanges key={table} table={table} changes={changes.filter((one) => one.table === table)} />
      ))}
    </>
  );
}

function TableChanges({ table, changes }: { table: string; changes: Change[] }) {
  return (
    <section class="sheet" aria-label={words.table[table] ?? table}>
      <h2>
        {words.table[table] ?? table} <span class="soft">{words.changedRows(changes.length)}</span>
      </h2>
      <ul class="differences">
        {changes.slice(0, MOST).map((one) => (
          <li key={`${one.change} ${one.key}`}>
            <p>
              <span class="tag">{words.change[one.change]}</span> <span class="strong">{one.key}</span>
            </p>
            {one.change === "moved" ? <p>{words.moved}</p> : <ChangedCells change={one} />}
          </li>
        ))}
      </ul>
      {changes.length > MOST && <p class="soft">{words.more(changes.length - MOST)}</p>}
    </section>
  );
}

function ChangedCells({ change }: { change: Change }) {
  const isBoth = change.change === "changed";
  const cells = change.cells.filter((cell) => isBoth || cell.before !== cell.after);
  return (
    <dl>
      {cells.map(({ field, before, after }) => (
        <div key={field}>
          <dt class="soft">{words.column(field)}</dt>
          <dd>
            {isBoth && (
              <>
                <span class="unseen">{words.before} </span>
                <del>{before || words.empty}</del>
                <span aria-hidden="true"> → </span>
                <span class="unseen">{words.after} </span>
              </>
            )}
            {change.change === "removed" ? <del>{before}</del> : <span class="strong">{after || words.empty}</span>}
          </dd>
        </div>
      ))}
    </dl>
  );
}
