/** Puts a block of cells from a spreadsheet into a table. */

import { linesOf, undefused } from "./delimited";
import { columnOf, type Kind, type Spec } from "./specs";
import { type Cells, nextId, type Table } from "./table";

/** What came of it: how many cells were filled, rows added, and cells that had no column to go to. */
export interface Pasted {
  table: Table;
  cells: number;
  rows: number;
  left_out: number;
}

/** Return a text from the clipboard as rows of cells: tabs between cells, quotes as CSV has them. */
export const blockOf = (text: string): string[][] => linesOf(text, "\t").map((line) => line.cells);

/** Return whether a text is more than one cell. */
export const isBlock = (text: string): boolean => /\t|[\r\n]./.test(text.replace(/[\r\n]+$/, ""));

/** Return a cell as its column has it: 1,5 is 1.5, TRUE is true, an apostrophe that defused a formula goes. */
export function tidied(kind: Kind, text: string): string {
  const cell = undefused(text.trim());
  if (kind === "number" && /^-?\d+,\d+$/.test(cell)) return cell.replace(",", ".");
  if (kind === "flag" && /^(true|false)$/i.test(cell)) return cell.toLowerCase();
  return cell;
}

/**
 * Put a block where the cell (`id`, `column`) is its upper left corner, over the rows `shown` in their order; rows are
 * added where it is longer. A block whose first row names columns goes to those columns.
 */
export function pasted(
  table: Table,
  spec: Spec,
  at: { id: number; column: string },
  block: string[][],
  shown: number[],
): Pasted {
  const { columns, rows: below } = headed(table, at.column, block);
  const start = Math.max(0, shown.indexOf(at.id));
  const cells = new Map<number, Cells>();
  let left_out = 0;
  let filled = 0;
  let fresh = nextId(table);
  below.forEach((line, place) => {
    const id = shown[start + place] ?? fresh++;
    const taken = line.flatMap((text, k): [string, string][] => {
      const column = columns[k];
      if (column === undefined) {
        left_out += text.trim() === "" ? 0 : 1;
        return [];
      }
      return [[column, tidied(columnOf(spec, column).kind, text)]];
    });
    filled += taken.length;
    cells.set(id, Object.fromEntries(taken));
  });
  const known = table.rows.map((row) => ({ ...row, cells: { ...row.cells, ...cells.get(row.id) } }));
  const added = [...cells].filter(([id]) => !table.rows.some((row) => row.id === id));
  const rows = [...known, ...added.map(([id, one]) => ({ id, cells: one }))];
  return { table: { ...table, rows }, cells: filled, rows: added.length, left_out };
}

function headed(table: Table, column: string, block: string[][]): { columns: string[]; rows: string[][] } {
  const [head = [], ...rest] = block;
  const names = head.map((one) => one.trim());
  const isHead = rest.length > 0 && names.length > 0 && names.every((name) => table.columns.includes(name));
  if (isHead) return { columns: names, rows: rest };
  return { columns: table.columns.slice(Math.max(0, table.columns.indexOf(column))), rows: block };
}
