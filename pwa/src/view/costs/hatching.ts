/** How dense a zone is hatched for its money: steps, so that they can be told apart without colour. Pure. */

/** Steps from no hatching to the densest. */
export const STEPS = [0, 1, 2, 3, 4] as const;
export type HatchStep = (typeof STEPS)[number];

/** Return the step of an amount against the largest: quarters of it, nothing for nothing. */
export function stepOf(amount: string, largest: string): HatchStep {
  const most = Number(largest) || 0;
  const share = most > 0 ? Math.max(0, Number(amount) || 0) / most : 0;
  if (share <= 0) return 0;
  return Math.min(4, Math.max(1, Math.ceil(share * 4 - 1e-9))) as HatchStep;
}

/** Return the largest of amounts, "0" for none. */
export const largestOf = (amounts: string[]): string =>
  amounts.reduce((most, one) => ((Number(one) || 0) > (Number(most) || 0) ? one : most), "0");
