/** What each minute late buys over the one before it; minutes that change nothing are one row. Pure. */

import type { ShownPlan } from "../../report/plan";

type Later = ShownPlan["later"][number];

export interface Gain extends Pick<Later, "leave_late_min" | "to_late_min" | "penalty_s" | "proven"> {
  comes_in: string[];
  drops_out: string[];
}

const without = (some: string[], others: string[]) => some.filter((one) => !others.includes(one));

/** Return the rows; `adds` and `drops` of the server are each against the plan that leaves on time. */
export function gainsOf(later: Later[]): Gain[] {
  const rows: Gain[] = [];
  for (const [place, one] of later.entries()) {
    const before = later[place - 1] ?? { adds: [], drops: [] };
    const comes_in = [...without(one.adds, before.adds), ...without(before.drops, one.drops)];
    const drops_out = [...without(one.drops, before.drops), ...without(before.adds, one.adds)];
    const { leave_late_min, to_late_min, penalty_s, proven } = one;
    const last = rows.at(-1);
    const isSame = comes_in.length + drops_out.length === 0;
    if (last && isSame && buysNothing(last)) last.to_late_min = to_late_min;
    else rows.push({ leave_late_min, to_late_min, penalty_s, proven, comes_in, drops_out });
  }
  return rows;
}

/** Whether a row says only that these minutes change nothing. */
export const buysNothing = ({ comes_in, drops_out }: Gain): boolean => comes_in.length + drops_out.length === 0;
