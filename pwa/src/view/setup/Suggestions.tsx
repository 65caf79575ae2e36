/** Lists of what a column's cells may say; anything else can be typed, and is named as a fault where it is one. */

import type { Spec } from "../../setup/specs";
import type { Book } from "../../setup/table";

/** The id of a column's list. */
export const suggestionsId = (column: string): string => `says-${column}`;

const MOST = 400;

export function Suggestions({ book, spec }: { book: Book; spec: Spec }) {
  return (
    <>
      {spec.columns.map(({ column, among, from }) => {
        const rows = from ? (book.tables[from[0]]?.rows ?? []) : [];
        const cells = from ? rows.map((row) => row.cells[from[1]] ?? "") : [];
        const says = [...new Set([...(among ?? []), ...cells])].filter(Boolean).slice(0, MOST);
        return (
          (among || from) && (
            <datalist key={column} id={suggestionsId(column)}>
              {says.map((one) => (
                <option key={one} value={one} />
              ))}
            </datalist>
          )
        );
      })}
    </>
  );
}
