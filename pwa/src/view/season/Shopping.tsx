/** The shopping list for the cover that was chosen: to copy, or to print; it alone is printed. */

import { useState } from "preact/hooks";
import type { EventSetup, Spares } from "../../kit/api";
import { money } from "../../kit/money";
import { orElse } from "../../kit/patience";
import { season as words } from "../words/season";
import { type Cover, shoppingOf, shoppingText } from "./layout";
import { number } from "./names";

interface ShoppingProps {
  spares: Spares;
  cover: Cover;
  setup: EventSetup;
}

export function Shopping({ spares, cover, setup }: ShoppingProps) {
  const list = shoppingOf(spares, cover);
  const head = words.shopping.head(setup.name, cover);
  const text = shoppingText(list, spares.currency, { head, total: words.shopping.total, noPrice: words.carry.noPrice });
  return (
    <section class="sheet shopping" aria-labelledby="shopping-title">
      <h2 id="shopping-title">{words.shopping.title}</h2>
      <p>
        {head}. {words.carry.ahead(number(spares.km), spares.cars)}
      </p>
      {list.items.length === 0 ? (
        <p>{words.shopping.nothing}</p>
      ) : (
        <>
          <ul class="to-buy">
            {list.items.map((one) => (
              <li key={one.part}>
                <span class="box" aria-hidden="true" />
                <span>
                  {number(one.qty)} × {one.description || one.part} <span class="soft">({one.part})</span>
                </span>
                <span class="amount">{one.cost === null ? words.carry.noPrice : money(one.cost, spares.currency)}</span>
              </li>
            ))}
          </ul>
          <p class="strong to-buy-total">
            {words.shopping.total}: {money(list.total, spares.currency)}
          </p>
          <Taking key={text} text={text} />
        </>
      )}
    </section>
  );
}

function Taking({ text }: { text: string }) {
  const [copied, setCopied] = useState<boolean | null>(null);
  return (
    <div class="stack no-print">
      <div class="row">
        <button type="button" class="button" onClick={async () => setCopied(await copy(text))}>
          {words.shopping.copy}
        </button>
        <button type="button" class="button" onClick={() => print()}>
          {words.shopping.print}
        </button>
      </div>
      <p role="status" class="told">
        {copied === null ? "" : copied ? words.shopping.copied : words.shopping.byHand}
      </p>
      {copied === false && (
        <label>
          <span class="unseen">{words.shopping.text}</span>
          <textarea readOnly rows={8} value={text} onFocus={(event) => event.currentTarget.select()} />
        </label>
      )}
    </div>
  );
}

/** Some browsers ask the person first, who may not answer. */
const PATIENCE_MS = 5_000;

// Over plain http there is no clipboard, and a browser may refuse: the text is shown to be copied by hand then.
function copy(text: string): Promise<boolean> {
  return orElse(
    async () => {
      await navigator.clipboard.writeText(text);
      return true;
    },
    false,
    PATIENCE_MS,
  );
}
