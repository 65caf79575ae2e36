/** The steps of a sum, in words that a customer can follow, each with its amount. */

import type { Statement } from "../../kit/api";
import { money } from "../../kit/money";

/** Steps that close a sum stand out. */
const SUMS = new Set(["together", "incidents", "rest", "now"]);

export function Steps({ title, steps, currency }: { title: string; steps: Statement["steps"]; currency: string }) {
  return (
    <table class="steps">
      <caption class="unseen">{title}</caption>
      <tbody>
        {steps.map(({ step, says, amount }) => (
          <tr key={says} class={SUMS.has(step) ? "sum-line" : ""}>
            <th scope="row">{says}</th>
            <td class="number">{money(amount, currency)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
