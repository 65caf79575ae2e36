/** What a draft changes against another book, and how it is brought onto a version that came in force meanwhile. */

import { keyOf, SPECS, type Spec } from "./specs";
import { type Book, type Cells, isBlank, type Row, type Table } from "./table";

/** A row that changes, as the server tells it; `moved`: its table's rows stand in another order. */
export interface Change {
  table: string;
  key: string;
  change: "added" | "removed" | "changed" | "moved";
  cells: { field: string; before: string; after: string }[];
}

/** Return the changes of a book's cells, table by table. */
export function changes(before: Book, after: Book): Change[] {
  return SPECS.flatMap((spec) => tableChanges(spec, before.tables[spec.table], after.tables[spec.table]));
}

/** Return in how many rows two books differ, by table; only tables that do. */
export function changedTables(before: Book, after: Book): Map<string, number> {
  const counted = new Map<string, number>();
  for (const { table } of changes(before, after)) counted.set(table, (counted.get(table) ?? 0) + 1);
  return counted;
}

function tableChanges(spec: Spec, before: Table | undefined, after: Table | undefined): Change[] {
  const old = keyed(spec, before);
  const now = keyed(spec, after);
  const row = (key: string, change: Change["change"], was: Cells, is: Cells): Change => ({
    table: spec.table,
    key,
    change,
    cells: cellsThatDiffer(was, is),
  });
  const removed = [...old].filter(([key]) => !now.has(key)).map(([key, one]) => row(key, "removed", one.cells, {}));
  const added = [...now].filter(([key]) => !old.has(key)).map(([key, one]) => row(key, "added", {}, one.cells));
  const common = [...now].flatMap(([key, one]) => {
    const was = old.get(key);
    return was ? [row(key, "changed", was.cells, one.cells)] : [];
  });
  const both = (some: Map<string, Row>, others: Map<string, Row>) => [...some.keys()].filter((key) => others.has(key));
  const isMoved = both(now, old).join("\n") !== both(old, now).join("\n");
  const moved = isMoved ? [row("", "moved", {}, {})] : [];
  return [...removed, ...added, ...common.filter((one) => one.cells.length > 0), ...moved];
}

function cellsThatDiffer(before: Cells, after: Cells): Change["cells"] {
  const fields = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  const cells = fields.map((field) => ({ field, before: before[field] ?? "", after: after[field] ?? "" }));
  return cells.filter((cell) => cell.before.trim() !== cell.after.trim());
}

/** Rows by key; where a key stands several times the second is `key (2)`. */
function keyed(spec: Spec, table: Table | undefined): Map<string, Row> {
  const rows = new Map<string, Row>();
  for (const row of table?.rows ?? []) {
    if (isBlank(row)) continue;
    const key = keyOf(spec, row.cells);
    let name = key;
    for (let count = 2; rows.has(name); count++) name = `${key} (${count})`;
    rows.set(name, row);
  }
  return rows;
}

/**
 * Return `mine`, which was made from `base`, as if it had been made from `theirs`.
 *
 * Cell by cell: what I changed is mine, the rest is theirs. A row that they took out stays out unless I changed it.
 */
export function brought(base: Book, mine: Book, theirs: Book): Book {
  const tables = SPECS.map((spec) => {
    const [old, own, other] = [base, mine, theirs].map((book) => book.tables[spec.table]);
    return [spec.table, broughtTable(spec, old, own, other)] as const;
  });
  return { tables: Object.fromEntries(tables), rest: theirs.rest, present: theirs.present };
}

function broughtTable(spec: Spec, base?: Table, mine?: Table, theirs?: Table): Table {
  const [old, own, other] = [keyed(spec, base), keyed(spec, mine), keyed(spec, theirs)];
  const kept = [...other].flatMap(([key, row]) => {
    const my = own.get(key);
    if (!my) return old.has(key) ? [] : [row];
    return [{ ...row, cells: { ...row.cells, ...cellsOfMine(old.get(key)?.cells ?? {}, my.cells) } }];
  });
  const more = [...own].filter(([key, row]) => !other.has(key) && isChanged(old.get(key), row)).map(([, row]) => row);
  const columns = [...new Set([...(theirs?.columns ?? []), ...(mine?.columns ?? [])])];
  return { columns, rows: [...kept, ...more].map((row, id) => ({ ...row, id })) };
}

const cellsOfMine = (base: Cells, mine: Cells): Cells =>
  Object.fromEntries(cellsThatDiffer(base, mine).map(({ field, after }) => [field, after]));

const isChanged = (base: Row | undefined, mine: Row): boolean =>
  base === undefined || cellsThatDiffer(base.cells, mine.cells).length > 0;
