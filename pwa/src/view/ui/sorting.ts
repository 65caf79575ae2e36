/** In which order the rows of a table stand. */

/** What a column is sorted by; null where a row has nothing there. */
export type SortValue = string | number | bigint | null;

export type Direction = "ascending" | "descending";

/** A column's id and which way; null: as the rows came. */
export type Sorting = { by: string; direction: Direction } | null;

// SS9 before SS10, and é beside e.
const AS_WORDS = { numeric: true, sensitivity: "base" } as const;

function compare(one: NonNullable<SortValue>, other: NonNullable<SortValue>): number {
  if (typeof one === "string" || typeof other === "string")
    return String(one).localeCompare(String(other), undefined, AS_WORDS);
  return one < other ? -1 : one > other ? 1 : 0;
}

/** Return the rows in order; alike ones as they came, those with nothing there last, whichever way. */
export function sorted<R>(rows: readonly R[], sortBy: (row: R) => SortValue, direction: Direction): R[] {
  const sign = direction === "ascending" ? 1 : -1;
  return rows.toSorted((a, b) => {
    const [one, other] = [sortBy(a), sortBy(b)];
    if (one === null || other === null) return Number(one === null) - Number(other === null);
    return sign * compare(one, other);
  });
}

/** Return what a tap on a column's head leads to: its own first way, then the other, then as the rows came. */
export function nextSorting(now: Sorting, by: string, first: Direction): Sorting {
  if (now?.by !== by) return { by, direction: first };
  if (now.direction !== first) return null;
  return { by, direction: first === "ascending" ? "descending" : "ascending" };
}
