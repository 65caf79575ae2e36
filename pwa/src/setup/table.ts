/** A set-up as tables of text cells: what a person edits, keeps as a draft and sends as files. */

/** Text by column; an absent column is an empty cell. */
export type Cells = Record<string, string>;

/**
 * One row. `id`: stays with the row while it is edited; unique in its table. `rest`: what the row of a TOML file says
 * beside its columns, as TOML, so that nothing of a file is lost.
 */
export interface Row {
  id: number;
  cells: Cells;
  rest?: string;
}

/** `columns`: in order, also those of a file that this app does not know. */
export interface Table {
  columns: string[];
  rows: Row[];
}

type Tables = Record<string, Table>;

/**
 * All tables of a set-up. `rest`: by file, what no table shows: of a TOML file its other keys, of another file all.
 * `present`: the files that there were; one with rows is written whether it was there or not.
 */
export interface Book {
  tables: Tables;
  rest: Record<string, string>;
  present: string[];
}

/** Return whether a row says nothing at all. */
export const isBlank = (row: Row): boolean => !row.rest && Object.values(row.cells).every((cell) => cell.trim() === "");

/** Return the next free row id of a table. */
export const nextId = (table: Table): number => Math.max(-1, ...table.rows.map((row) => row.id)) + 1;

/** Return a table of cells alone, ids from 0. */
export function tableOf(columns: string[], rows: Cells[]): Table {
  return { columns, rows: rows.map((cells, id) => ({ id, cells })) };
}

/** Return the table with other cells in a row; the very same table where nothing changes. */
export function withCell(table: Table, id: number, column: string, text: string): Table {
  const isSame = table.rows.every((row) => row.id !== id || (row.cells[column] ?? "") === text);
  if (isSame) return table;
  const rows = table.rows.map((row) => (row.id === id ? { ...row, cells: { ...row.cells, [column]: text } } : row));
  return { ...table, rows };
}

/** Return the table with an empty row after the one named, or at the end. */
export function withRow(table: Table, after: number | null): { table: Table; id: number } {
  const id = nextId(table);
  const at = table.rows.findIndex((row) => row.id === after);
  const place = at < 0 ? table.rows.length : at + 1;
  return { table: { ...table, rows: table.rows.toSpliced(place, 0, { id, cells: {} }) }, id };
}

/** Return the table without a row. */
export function withoutRow(table: Table, id: number): Table {
  return { ...table, rows: table.rows.filter((row) => row.id !== id) };
}

/** Return the table with a row one place up (-1) or down (1). */
export function withMoved(table: Table, id: number, by: -1 | 1): Table {
  const at = table.rows.findIndex((row) => row.id === id);
  const row = table.rows[at];
  if (!row || !table.rows[at + by]) return table;
  return { ...table, rows: table.rows.toSpliced(at, 1).toSpliced(at + by, 0, row) };
}

/** Return the only row of a form's table; an empty one where it has none. */
export const formRow = (table: Table | undefined): Row => table?.rows[0] ?? { id: 0, cells: {} };
