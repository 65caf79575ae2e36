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
