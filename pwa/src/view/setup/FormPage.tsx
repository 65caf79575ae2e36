/** A section that has one of each: the event itself, regulations, money. */

import { useEffect } from "preact/hooks";
import { faultAt } from "../../setup/faults";
import { tidied } from "../../setup/paste";
import type { Column, Spec } from "../../setup/specs";
import { formRow, tableOf, withCell } from "../../setup/table";
import { setup as words } from "../words/setup";
import { Cell } from "./Cell";
import { FaultList } from "./FaultList";
import { Look } from "./Look";
import { suggestionsId } from "./Suggestions";
import { KeptLine } from "./DraftLines";
import { addressOf } from "./address";
import { cellId, picked, useFocus } from "./useFocus";
import type { Editing } from "./useSetup";

interface FormPageProps {
  editing: Editing;
  spec: Spec;
  now: number;
}

export function FormPage({ editing, spec }: FormPageProps) {
  const table = editing.book.tables[spec.table];
  const row = formRow(table);
  const focus = useFocus();
  useEffect(() => {
    if (picked.cell) focus(picked.cell);
    picked.cell = null;
  }, []);
  const commit = (column: Column, text: string) => {
    editing.edit(spec.table, (now) => {
      const filled = now.rows.length > 0 ? now : tableOf(now.columns, [{}]);
      return withCell(filled, row.id, column.column, tidied(column.kind, text));
    });
  };
  const faults = editing.faults.filter((one) => one.table === spec.table);
  return (
    <div class="stack">
      <a class="button quiet back" href={addressOf(editing.event)}>
        {words.back}
      </a>
      <h1>{words.table[spec.table]}</h1>
      <FaultList editing={editing} faults={faults} onPick={(one) => focus(cellId(one.id ?? 0, one.column))} />
      <div class="sheet">
        {spec.columns.map((column) => (
          <Field
            key={column.column}
            column={column}
            isFixed={spec.table === "event" && column.column === "event" && !editing.isNew}
            value={row.cells[column.column] ?? ""}
            id={cellId(row.id, column.column)}
            fault={faultAt(faults, spec.table, row, column.column)}
            onCommit={(text) => commit(column, text)}
          />
        ))}
      </div>
      <div class="row">
        <Look editing={editing} />
        <KeptLine editing={editing} />
      </div>
    </div>
  );
}

interface FieldProps {
  column: Column;
  isFixed?: boolean;
  value: string;
  id: string;
  fault: ReturnType<typeof faultAt>;
  /** What it says, in a sentence. */
  says?: string;
  onCommit: (text: string) => void;
}

export function Field({ column, isFixed = false, value, id, fault, says, onCommit }: FieldProps) {
  const among = column.kind === "text" || column.kind === "flag" ? column.among : undefined;
  const label = words.column(column.column);
  const kind = column.unit ?? words.hint[column.kind];
  const hint = column.idle ? words.idle : kind;
  return (
    <div>
      <label class="label" for={id}>
        {label} {hint && (column.idle || !among) && <span class="soft hint">{hint}</span>}
      </label>
      {among ? (
        <select
          id={id}
          value={value}
          aria-invalid={fault !== null}
          aria-describedby={fault ? `${id}-fault` : undefined}
          onChange={(event) => onCommit(event.currentTarget.value)}
        >
          {["", ...among, ...(among.includes(value) || value === "" ? [] : [value])].map((one) => (
            <option key={one} value={one}>
              {one === "" ? words.notSaid : one}
            </option>
          ))}
        </select>
      ) : (
        <Cell
          id={id}
          label={label}
          labelled
          value={value}
          fault={fault}
          list={column.from ? suggestionsId(column.column) : undefined}
          readOnly={isFixed}
          inputMode={column.kind === "number" ? "decimal" : "text"}
          onCommit={onCommit}
        />
      )}
      {among && fault && (
        <p id={`${id}-fault`} class="cell-fault">
          {fault.what}
        </p>
      )}
      {isFixed && <p class="soft">{words.eventFixed}</p>}
      {says && <p class="soft says">{says}</p>}
    </div>
  );
}
