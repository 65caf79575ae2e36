/** Estimate against actual, a pair of bars for each row: outlined over filled, with the amounts written out and a table behind. */

import type { ComponentChildren } from "preact";
import { costs as words } from "../words/costs";
import { barsOf, largestRows } from "./bars";
import { CostTable, type MoneyRow } from "./CostTable";

interface CostChart {
  id: string;
  title: string;
  column: string;
  currency: string;
  rows: MoneyRow[];
  /** What stands between title and bars. */
  before?: ComponentChildren;
}

/** So many bars fit on a phone's screen or two. */
const MOST_BARS = 10;

export function CostChart({ id, title, column, currency, rows, before }: CostChart) {
  const bars = barsOf(largestRows(rows, MOST_BARS));
  return (
    <section class="sheet" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      {before}
      <p class="soft">{words.chartKey}</p>
      {rows.length > bars.length && <p class="soft">{words.largest(bars.length, rows.length)}</p>}
      <ul class="chart">
        {bars.map((bar) => (
          <li key={bar.label}>
            <span class="strong">{bar.label}</span>
            <BarLine kind="estimate" name={words.estimate} share={bar.estimate_share} amount={bar.estimate} />
            <BarLine kind="actual" name={words.actual} share={bar.actual_share} amount={bar.actual} />
          </li>
        ))}
      </ul>
      <CostTable title={title} column={column} currency={currency} rows={rows} />
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
