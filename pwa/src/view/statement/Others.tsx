/** What is charged besides damage: drafted from both walks or entered by hand, and what the walks leave to be asked. */

import type { Statement } from "../../kit/api";
import { money } from "../../kit/money";
import { Photos } from "../bits/Photo";
import { statement as words } from "../words/statement";
import { AddCharge } from "./AddCharge";
import type { BillProps } from "./bill";
import { Settle } from "./Settle";

type Charge = NonNullable<Statement["other"]>[number];

export function Others({ bill, ...props }: BillProps & { bill: Statement }) {
  const { other = [], asks = [], currency, entry } = bill;
  if (entry !== null && !other.length) return null;
  return (
    <section class="sheet stack">
      <h3>{words.besides}</h3>
      {asks.map((ask) => (
        <p key={ask} class="warn">
          {ask}
        </p>
      ))}
      <ul class="stack bill-lines">
        {other.map((one) => (
          <li key={one.line} class="stack">
            <p>
              <span class="strong">{one.says}</span>
              <br />
              {money(one.amount, currency)} <span class="soft">{howOf(one, currency)}</span>
            </p>
            <Photos photos={one.photos} photoUrl={props.actions.photoUrl} />
            {entry === null ? (
              <AddCharge {...props} currency={currency} of={one} />
            ) : (
              <Settle {...props} statement={entry} line={one.line} />
            )}
          </li>
        ))}
      </ul>
      {entry === null && <AddCharge {...props} currency={currency} of={null} />}
    </section>
  );
}

function howOf(one: Charge, currency: string): string {
  const said = [
    `${one.qty} ${one.unit} × ${money(one.price, currency)}`,
    one.tax_percent > 0 && words.tax(String(one.tax_percent)),
    one.why,
    one.standing && words.standing[one.standing],
  ];
  return said.filter(Boolean).join(" · ");
}
