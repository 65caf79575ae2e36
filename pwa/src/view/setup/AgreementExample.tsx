/** What a hit of a size that one may change would cost under an agreement, as it is being written. */

import { useState } from "preact/hooks";
import { money } from "../../kit/money";
import { currencyOf, exampleOf } from "../../setup/agreement_example";
import type { Cells } from "../../setup/table";
import { agreements as words } from "../words/agreements";

const SIZE = "1200";

export function AgreementExample({ terms, code }: { terms: Cells; code: string }) {
  const [size, setSize] = useState(SIZE);
  return (
    <section class="sheet example" aria-labelledby="example-title">
      <h3 id="example-title">{words.example}</h3>
      <label>
        <span class="label">{words.size(code)}</span>
        <input
          type="text"
          inputMode="decimal"
          value={size}
          autocomplete="off"
          onInput={(event) => setSize(event.currentTarget.value)}
        />
      </label>
      <div role="status" class="stack">
        {sentences(terms, size.trim(), code).map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
      <p class="soft">{words.beside}</p>
    </section>
  );
}

function sentences(terms: Cells, size: string, code: string): string[] {
  const coin = currencyOf(code);
  const [one, three] = [exampleOf(terms, size, 1, coin), exampleOf(terms, size, 3, coin)];
  if (!one || !three) return [words.unread];
  const says = (line: bigint) => money(withoutNoughts(coin.text(line)), code);
  const hit = money(withoutNoughts(size.replace(",", ".")), code);
  const isBack = one.rest < 0n;
  return [
    words.one(hit, says(one.damage)),
    words.three(hit, says(three.damage)),
    ...(terms.excess || terms.cap || terms.share_percent ? [words.misuse(hit)] : []),
    ...(one.tax > 0n ? [words.tax(says(one.tax))] : []),
    ...(one.deposit > 0n
      ? [isBack ? words.back(says(one.deposit), says(-one.rest)) : words.deposit(says(one.deposit), says(one.rest))]
      : []),
  ];
}

/** Whole amounts read better without their cents in a sentence. */
const withoutNoughts = (amount: string): string => amount.replace(/\.0+$/, "");
