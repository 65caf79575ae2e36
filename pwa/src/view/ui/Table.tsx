/** A table: head and first column stay in sight, heads sort, totals stand at the foot. */

import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import "./table.css";
import { Icon } from "./Icon";
import { type Direction, nextSorting, type Sorting, type SortValue, sorted } from "./sorting";

export interface Column<R> {
  id: string;
  label: string;
  cell: (row: R) => ComponentChildren;
  /** Numbers stand at the right, and sort from the largest. */
  number?: boolean;
  /** What it is sorted by; a column without it can't be sorted by. */
  sortBy?: (row: R) => SortValue;
  /** At the foot. */
  total?: ComponentChildren;
}

interface TableProps<R> {
  /** What the table is; `quiet`: for screen readers alone. */
  caption: string;
  quiet?: boolean;
  columns: readonly Column<R>[];
  rows: readonly R[];
  keyOf: (row: R) => string;
  /** The head of the row of totals, where columns have them. */
  totalLabel?: string;
  /** What stands where there is no row. */
  empty: ComponentChildren;
  /** A row is opened by the button in its first column. */
  onOpen?: (row: R) => void;
  /** The key of the row that is shown beside the table. */
  current?: string | null;
}

const side = (column: { number?: boolean }) => (column.number ? "is-number" : undefined);

interface HeadProps<R> {
  column: Column<R>;
  sorting: Sorting;
  onSort: (by: string, first: Direction) => void;
}

function Head<R>({ column, sorting, onSort }: HeadProps<R>) {
  const way = sorting?.by === column.id ? sorting.direction : null;
  if (!column.sortBy) {
    return (
      <th scope="col" class={side(column)}>
        {column.label}
      </th>
    );
  }
  return (
    <th scope="col" class={side(column)} aria-sort={way ?? "none"}>
      <button
        type="button"
        class="ui-table-sort"
        onClick={() => onSort(column.id, column.number ? "descending" : "ascending")}
      >
        {column.label}
        <Icon name={way === null ? "sort" : way === "ascending" ? "up" : "down"} size={16} />
      </button>
    </th>
  );
}

interface LineProps<R> extends Pick<TableProps<R>, "columns" | "onOpen"> {
  row: R;
  isCurrent: boolean;
}

function Line<R>({ row, columns, onOpen, isCurrent }: LineProps<R>) {
  const [first, ...rest] = columns;
  const name = first?.cell(row);
  return (
    <tr class={isCurrent ? "is-current" : undefined} aria-current={isCurrent || undefined}>
      <th scope="row">
        {onOpen ? (
          <button type="button" class="ui-table-open" onClick={() => onOpen(row)}>
            {name}
          </button>
        ) : (
          name
        )}
      </th>
      {rest.map((column) => (
        <td key={column.id} class={side(column)}>
          {column.cell(row)}
        </td>
      ))}
    </tr>
  );
}

function Totals<R>({ columns, label }: { columns: readonly Column<R>[]; label: string }) {
  return (
    <tfoot>
      <tr>
        <th scope="row">{label}</th>
        {columns.slice(1).map((column) => (
          <td key={column.id} class={side(column)}>
            {column.total}
          </td>
        ))}
      </tr>
    </tfoot>
  );
}

/** What is too wide scrolls within its own frame, which the keyboard reaches. */
export function Table<R>(props: TableProps<R>) {
  const { caption, quiet, columns, rows, keyOf, totalLabel, empty, onOpen, current } = props;
  const [sorting, setSorting] = useState<Sorting>(null);
  const by = columns.find((column) => column.id === sorting?.by)?.sortBy;
  const shown = sorting && by ? sorted(rows, by, sorting.direction) : rows;
  const sort = (id: string, first: Direction) => setSorting(nextSorting(sorting, id, first));
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: without a pointer, nothing else scrolls it.
    <section class="ui-table-frame" aria-label={caption} tabIndex={0}>
      <table class="ui-table">
        <caption class={quiet ? "unseen" : undefined}>{caption}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <Head key={column.id} column={column} sorting={sorting} onSort={sort} />
            ))}
          </tr>
        </thead>
        <tbody>
          {shown.map((row) => (
            <Line key={keyOf(row)} row={row} columns={columns} onOpen={onOpen} isCurrent={keyOf(row) === current} />
          ))}
          {rows.length === 0 && (
            <tr>
              <td colSpan={columns.length}>{empty}</td>
            </tr>
          )}
        </tbody>
        {totalLabel && rows.length > 0 && <Totals columns={columns} label={totalLabel} />}
      </table>
    </section>
  );
}
