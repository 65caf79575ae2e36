/** Estimate against actual, a pair of bars for each row: outlined over filled, with the amounts written out and a table behind. */

import { money } from "../../kit/money";
import { costs as words } from "../words/costs";
import { barsOf } from "./bars";

interface CostChart {
  id: string;
  title: string;
  column: string;
  currency: string;
  rows: { label: string; estimate: string; actual: string }[];
}

export function CostChart({ id, title, column, currency, rows }: CostChart) {
  if (!rows.length) return null;
  const bars = barsOf(rows);
  return (
    <section class="sheet" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      <p class="soft">{words.chartKey}</p>
      <ul class="chart">
        {bars.map((bar) => (
          <li key={bar.label}>
            <span class="strong">{bar.label}</span>
            <BarLine kind="estimate" name={words.estimate} share={bar.estimate_share} amount={bar.estimate} />
            <BarLine kind="actual" name={words.actual} share={bar.actual_share} amount={bar.actual} />
          </li>
        ))}
      </ul>
      <details>
        <summary>{words.table}</summary>
        <table>
          <caption class="unseen">{title}</caption>
          <thead>
            <tr>
              <th scope="col">{column}</th>
              <th scope="col" class="number">
                {words.estimate}
              </th>
              <th scope="col" class="number">
                {words.actual}
              </th>
            </tr>
          </thead>
          <tbody>
            {bars.map((bar) => (
              <tr key={bar.label}>
                <th scope="row">{bar.label}</th>
                <td class="number">{money(bar.estimate, currency)}</td>
                <td class="number">{money(bar.actual, currency)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </section>
  );
}

interface BarLineProps {
  kind: "estimate" | "actual";
  name: string;
  share: number;
  amount: string;
}

function BarLine({ kind, name, share, amount }: BarLineProps) {
  return (
    <span class="bar-line">
      <svg viewBox="0 0 100 16" preserveAspectRatio="none" aria-hidden="true" focusable="false">
        <rect class={kind} x="0" y="1" width={Math.max(0.5, share * 100)} height="14" />
      </svg>
      <span>
        <span class="unseen">{name} </span>
        {amount}
      </span>
    </span>
  );
}
