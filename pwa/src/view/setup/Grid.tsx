/** Rows of cells as in a spreadsheet: arrows, Tab and Enter move, blocks are pasted, rows come and go. */

import { Fragment } from "preact";
import { useState } from "preact/hooks";
import { type Fault, faultAt } from "../../setup/faults";
import { blockOf, isBlock, tidied } from "../../setup/paste";
import { withTyped } from "../../setup/naming";
import { columnOf, type Spec } from "../../setup/specs";
import { type Book, type Row, type Table, withMoved, withoutRow } from "../../setup/table";
import { setup as words } from "../words/setup";
import { Cell } from "./Cell";
import { RowMenu } from "./RowMenu";
import { Suggestions, suggestionsId } from "./Suggestions";
import { cellId } from "./useFocus";

export interface GridProps {
  book: Book;
  spec: Spec;
  table: Table;
  shown: Row[];
  faults: Fault[];
  onChange: (how: (table: Table) => Table) => void;
  onPaste: (at: { id: number; column: string }, block: string[][]) => void;
  onAdd: (after: number | null, column?: string) => void;
  onUndo: () => void;
  onFocus: (id: string) => void;
}

export function Grid(props: GridProps) {
  const { book, spec, table, shown, faults, onChange } = props;
  const [open, setOpen] = useState<number | null>(null);
  const place = (id: number) => table.rows.findIndex((row) => row.id === id) + 1;
  return (
    <div class="grid">
      <Suggestions book={book} spec={spec} />
      <table>
        <caption class="unseen">{words.table[spec.table]}</caption>
        <thead>
          <tr>
            <th scope="col" class="handle">
              <span class="unseen">{words.rowHead}</span>
            </th>
            {table.columns.map((column, at) => (
              <th key={column} scope="col" class={at === 0 ? "first" : ""}>
                {words.column(column)}
                {columnOf(spec, column).idle && <span class="soft hint"> {words.idle}</span>}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {shown.map((row) => (
            <Fragment key={row.id}>
              <tr>
                <th scope="row" class="handle">
                  <button
                    type="button"
                    class="button"
                    aria-expanded={open === row.id}
                    aria-label={words.rowMenu(place(row.id))}
                    onClick={() => setOpen(open === row.id ? null : row.id)}
                  >
                    {place(row.id)}
                  </button>
                </th>
                <Cells {...props} row={row} at={place(row.id)} />
              </tr>
              {open === row.id && (
                <RowMenu
                  span={table.columns.length + 1}
                  fault={faultAt(faults, spec.table, row, "")}
                  onMove={(by) => onChange((now) => withMoved(now, row.id, by))}
                  onAdd={() => props.onAdd(row.id)}
                  onTakeOut={() => {
                    setOpen(null);
                    onChange((now) => withoutRow(now, row.id));
                  }}
                />
              )}
            </Fragment>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Cells(props: GridProps & { row: Row; at: number }) {
  const { spec, table, row, at, faults } = props;
  return (
    <>
      {table.columns.map((column, place) => {
        const { kind, among, from, long } = columnOf(spec, column);
        const whole = place === 0 ? faultAt(faults, spec.table, row, "") : null;
        return (
          <td
            key={column}
            class={`${place === 0 ? "first" : ""} ${long ? "long" : kind}`}
            onKeyDown={(event) => onKey(event, props, column)}
            onPaste={(event) => {
              const text = event.clipboardData?.getData("text/plain") ?? "";
              if (!isBlock(text)) return;
              event.preventDefault();
              props.onPaste({ id: row.id, column }, blockOf(text));
            }}
          >
            <Cell
              id={cellId(row.id, column)}
              label={words.cell(words.column(column), at)}
              value={row.cells[column] ?? ""}
              fault={faultAt(faults, spec.table, row, column) ?? whole}
              list={among || from ? suggestionsId(column) : undefined}
              inputMode={kind === "number" ? "decimal" : "text"}
              onCommit={(text) => props.onChange((now) => withTyped(now, spec, row.id, column, tidied(kind, text)))}
            />
          </td>
        );
      })}
    </>
  );
}

type Key = KeyboardEvent & { currentTarget: HTMLElement };

/** Up and down go from row to row, Enter too, and on from the last row into a new one; sideways where the text ends. */
function onKey(event: Key, props: GridProps & { row: Row }, column: string): void {
  const input = event.target;
  if (!(input instanceof HTMLInputElement) || event.altKey) return;
  if (event.key.toLowerCase() === "z" && (event.ctrlKey || event.metaKey)) {
    // While a cell is being typed in, its own undo is meant.
    if (input.value !== (props.row.cells[column] ?? "")) return;
    event.preventDefault();
    props.onUndo();
    return;
  }
  const step = stepOf(event, input);
  if (step === null) return;
  event.preventDefault();
  const [down, right] = step;
  const at = props.shown.findIndex((row) => row.id === props.row.id) + down;
  const to = props.table.columns[props.table.columns.indexOf(column) + right];
  const row = props.shown[at];
  if (row && to) props.onFocus(cellId(row.id, to));
  else if (event.key === "Enter" && down > 0) {
    input.blur();
    props.onAdd(null, column);
  }
}

function stepOf(event: KeyboardEvent, input: HTMLInputElement): [down: number, right: number] | null {
  const isAtStart = input.selectionStart === 0 && input.selectionEnd === 0;
  const isAtEnd = input.selectionStart === input.value.length;
  if (event.key === "ArrowDown") return [1, 0];
  if (event.key === "ArrowUp") return [-1, 0];
  if (event.key === "Enter") return [event.shiftKey ? -1 : 1, 0];
  if (event.key === "ArrowLeft" && isAtStart) return [0, -1];
  return event.key === "ArrowRight" && isAtEnd ? [0, 1] : null;
}
