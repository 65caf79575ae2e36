/** A section of many rows: find, edit, undo, files in and out. */

import { useEffect, useState } from "preact/hooks";
import type { Fault } from "../../setup/faults";
import { pasted } from "../../setup/paste";
import type { Spec } from "../../setup/specs";
import { isBlank, type Row, type Table, withRow } from "../../setup/table";
import { setup as words } from "../words/setup";
import { FaultList } from "./FaultList";
import { Grid } from "./Grid";
import { Look } from "./Look";
import { KeptLine } from "./DraftLines";
import { addressOf } from "./address";
import { TableFiles } from "./Transfer";
import { cellId, picked, useFocus } from "./useFocus";
import type { Editing } from "./useSetup";

/** Rows at a time: a phone draws them at once. */
const PAGE = 40;
const MOST_UNDONE = 50;

interface TablePageProps {
  editing: Editing;
  spec: Spec;
  /** What holds where the table has no row, to begin with. */
  usual?: Table | null;
}

export function TablePage({ editing, spec, usual = null }: TablePageProps) {
  const name = spec.table;
  const table = editing.book.tables[name] ?? { columns: spec.columns.map((one) => one.column), rows: [] };
  const [find, setFind] = useState("");
  const [from, setFrom] = useState(0);
  const [before, setBefore] = useState<Table[]>([]);
  const [told, setTold] = useState<string | null>(null);
  const focus = useFocus();
  const rows = table.rows.filter((row) => fits(row, find));
  const start = Math.min(from, Math.max(0, Math.floor((rows.length - 1) / PAGE) * PAGE));
  const shown = rows.slice(start, start + PAGE);
  const change = (how: (now: Table) => Table) => {
    let isNew = false;
    const was = editing.edit(name, (now) => {
      const next = how(now);
      isNew = next !== now;
      return next;
    });
    if (isNew) setBefore((some) => [...some.slice(-MOST_UNDONE), was]);
  };
  const undo = () => {
    const last = before.at(-1);
    if (!last) return;
    setBefore(before.slice(0, -1));
    setTold(null);
    editing.edit(name, () => last);
  };
  const add = (after: number | null, column = firstTyped(table, name)) => {
    change((now) => {
      const made = withRow(now, after);
      show(made.table, made.id, column);
      return made.table;
    });
  };
  const show = (of: Table, id: number, column: string) => {
    setFind("");
    setFrom(Math.max(0, Math.floor(of.rows.findIndex((row) => row.id === id) / PAGE) * PAGE));
    focus(cellId(id, column));
  };
  const pick = ({ id, column }: Fault) => {
    if (id !== null) show(table, id, column || (table.columns[0] ?? ""));
  };
  useEffect(() => {
    const [, id, column] = /^cell-(\d+)-(.*)$/.exec(picked.cell ?? "") ?? [];
    if (id !== undefined) show(table, Number(id), column || (table.columns[0] ?? ""));
    picked.cell = null;
  }, []);
  const paste = (at: { id: number; column: string }, block: string[][]) => {
    const ids = rows.slice(rows.findIndex((row) => row.id === at.id)).map((row) => row.id);
    change((now) => {
      const made = pasted(now, spec, at, block, ids);
      const lost = made.left_out ? ` ${words.pastedLeftOut(made.left_out)}` : "";
      setTold(words.pasted(made.cells, made.rows) + lost);
      return made.table;
    });
  };
  const faults = editing.faults.filter((one) => one.table === name);
  return (
    <div class="stack">
      <a class="button quiet back" href={addressOf(editing.event)}>
        {words.back}
      </a>
      <h1>{words.table[name]}</h1>
      <FaultList editing={editing} faults={faults} onPick={pick} />
      <div class="row">
        {table.rows.length > 8 && (
          <label class="find">
            <span class="unseen">{words.find}</span>
            <input
              type="text"
              placeholder={words.find}
              value={find}
              onInput={(event) => {
                setFind(event.currentTarget.value);
                setFrom(0);
              }}
            />
          </label>
        )}
        <button type="button" class="button" disabled={before.length === 0} onClick={undo}>
          {words.undo}
        </button>
        <KeptLine editing={editing} />
      </div>
      {usual && <Usual table={table} usual={usual} onBegin={() => change(() => usual)} />}
      <p role="status" class={told ? "strong" : "soft"}>
        {told ?? words.keys}
      </p>
      <Grid
        book={editing.book}
        spec={spec}
        table={table}
        shown={shown}
        faults={faults}
        onChange={change}
        onPaste={paste}
        onAdd={add}
        onUndo={undo}
        onFocus={focus}
      />
      <Pager start={start} shown={shown.length} of={rows.length} onGo={setFrom} />
      <div class="row">
        <button type="button" class="button" onClick={() => add(null)}>
          {words.addRow}
        </button>
        <Look editing={editing} />
      </div>
      <TableFiles editing={editing} spec={spec} table={table} onTable={(taken) => change(() => taken)} />
    </div>
  );
}

/** Where a new row begins: a person's id follows from the name. */
const firstTyped = ({ columns }: Table, name: string): string => (name === "people" ? "name" : (columns[0] ?? ""));

function Usual({ table, usual, onBegin }: { table: Table; usual: Table; onBegin: () => void }) {
  const isEmpty = table.rows.every(isBlank) && usual.rows.length > 0;
  return (
    <>
      <p>{words.usualHow}</p>
      {isEmpty && (
        <button type="button" class="button" onClick={onBegin}>
          {words.usual}
        </button>
      )}
    </>
  );
}

function fits(row: Row, find: string): boolean {
  const wanted = find.trim().toLowerCase();
  return wanted === "" || Object.values(row.cells).some((cell) => cell.toLowerCase().includes(wanted));
}

interface PagerProps {
  start: number;
  shown: number;
  of: number;
  onGo: (from: number) => void;
}

function Pager({ start, shown, of, onGo }: PagerProps) {
  return (
    <div class="row">
      <span class="soft">{words.showing(start + 1, start + shown, of)}</span>
      {start > 0 && (
        <button type="button" class="button" onClick={() => onGo(start - PAGE)}>
          {words.earlier}
        </button>
      )}
      {start + shown < of && (
        <button type="button" class="button" onClick={() => onGo(start + PAGE)}>
          {words.later}
        </button>
      )}
    </div>
  );
}
