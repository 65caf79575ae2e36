/** The order of conditions of a component, worst last. */

import { type CarMap, CONDITIONS, type Condition } from "../kit/api";

/**
 * Return a component's conditions, best first.
 *
 * `unknown` stays below its own list; a condition that the list leaves out is worse than all in it, in the general order.
 */
export function conditionsOf(component: string, map: CarMap | null): Condition[] {
  const own = map?.components[component]?.conditions ?? [];
  if (own.length === 0) return [...CONDITIONS];
  const rest = CONDITIONS.filter((condition) => condition !== "unknown" && !own.includes(condition));
  return ["unknown", ...own.filter((condition) => condition !== "unknown"), ...rest];
}
