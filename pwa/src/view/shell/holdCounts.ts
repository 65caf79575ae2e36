/** What holds a car, counted by what it needs. Pure. */

import type { HoldReason } from "../../kit/api";
import { shell } from "../words/shell";

const words = shell.strip;

/** "1 failed · 4 to inspect". */
export function countsOf(reasons: HoldReason[]): string {
  const count = (needs: string) => reasons.filter((one) => one.needs === needs).length;
  const said = [
    [count("review"), words.review],
    [count("re-inspection"), words.failed],
    [count("official"), words.official],
    [count("inspection"), words.inspect],
  ] as const;
  return said.flatMap(([n, word]) => (n > 0 ? [word(n)] : [])).join(" · ");
}
