/** The numbers behind a picture, folded: the API's own, to the cent. Corrections show where there are any. */

import { money } from "../../kit/money";
import { costs as words } from "../words/costs";

export interface MoneyRow {
  label: string;
  estimate: string;
  actual: string;
  adjustments: string;
  before_tax: string;
}

interface CostTableProps {
  title: string;
  column: string;
  currency: string;
  rows: MoneyRow[];
}

export function CostTable({ title, column, currency, rows }: CostTableProps) {
  const isAdjusted = rows.some((row) => Number(row.adjustments) !== 0);
  const columns: [string, keyof MoneyRow][] = [
    [words.estimate, "estimate"],
    [words.actual, "actual"],
    ...(isAdjusted
      ? ([
          [words.adjustments, "adjustments"],
          [words.before, "before_tax"],
        ] as [string, keyof MoneyRow][])
      : []),
  ];
  return (
    <details>
      <summary>{words.table}</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard. */}
      <section class="beside" tabIndex={0} aria-label={`${title}, ${currency}`}>
        <table class="money">
          <caption class="unseen">{`${title}, ${currency}`}</caption>
          <thead>
            <tr>
              <th scope="col">{column}</th>
              {columns.map(([name]) => (
                <th key={name} scope="col" class="number">
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.label}>
                <th scope="row">{row.label}</th>
                {columns.map(([name, key]) => (
                  <td key={name} class="number">
                    {money(row[key], "").trim()}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <p class="soft">{words.inCurrency(currency)}</p>
    </details>
  );
}
