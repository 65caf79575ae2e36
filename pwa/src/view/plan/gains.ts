/** What each minute late buys over the one before it: rows that change nothing are left out. Pure. */

import type { ShownPlan } from "../../report/plan";

type Later = ShownPlan["later"][number];

export interface Gain extends Pick<Later, "leave_late_min" | "penalty_s" | "proven"> {
  comes_in: string[];
  drops_out: string[];
}

const without = (some: string[], others: string[]) => some.filter((one) => !others.includes(one));

/** Return the rows; `adds` and `drops` of the server are each against the plan that leaves on time. */
export function gainsOf(later: Later[]): Gain[] {
  return later
    .map((one, place) => {
      const before = later[place - 1] ?? { adds: [], drops: [] };
      const comes_in = [...without(one.adds, before.adds), ...without(before.drops, one.drops)];
      const drops_out = [...without(one.drops, before.drops), ...without(before.adds, one.adds)];
      const { leave_late_min, penalty_s, proven } = one;
      return { leave_late_min, penalty_s, proven, comes_in, drops_out };
    })
    .filter((gain) => gain.comes_in.length + gain.drops_out.length > 0);
}
