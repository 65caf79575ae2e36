/** Lengths of chart bars from amounts of money; for drawing only, never for adding. Pure. */

export interface Bar {
  label: string;
  estimate: string;
  actual: string;
  /** Share of the longest bar, 0 to 1. */
  estimate_share: number;
  actual_share: number;
}

interface Row {
  label: string;
  estimate: string;
  actual: string;
}

/** Negative amounts have no length; the table says them. */
export function barsOf(rows: Row[]): Bar[] {
  const length = (amount: string) => Math.max(0, Number(amount) || 0);
  const longest = Math.max(...rows.flatMap((row) => [length(row.estimate), length(row.actual)]), 1e-9);
  return rows.map((row) => ({
    ...row,
    estimate_share: length(row.estimate) / longest,
    actual_share: length(row.actual) / longest,
  }));
}

/** Return the rows with the most money, in their own order; all of them where they are no more than `most`. */
export function largestRows<R extends Row>(rows: R[], most: number): R[] {
  if (rows.length <= most) return rows;
  const weight = (row: R) => Math.max(Number(row.estimate) || 0, Number(row.actual) || 0);
  const kept = new Set([...rows].sort((a, b) => weight(b) - weight(a)).slice(0, most));
  return rows.filter((row) => kept.has(row));
}
