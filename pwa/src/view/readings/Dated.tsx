/** What on the car runs out and what is sealed, the most pressing first; nothing where the set-up lists nothing. */

import type { EventSetup } from "../../kit/api";
import { type DatedItem, datedOf } from "../../report/dated";
import { dayText } from "../labels";
import { readings as words } from "../words/readings";

interface DatedProps {
  setup: EventSetup;
  car: string;
  now_ms: number;
  /** Only what has run out, or will within a month. */
  pressing?: boolean;
}

export function Dated({ setup, car, now_ms, pressing = false }: DatedProps) {
  const all = datedOf(setup, car, now_ms);
  const items = pressing ? all.filter(({ state }) => state !== "later" && state !== "none") : all;
  if (items.length === 0) return null;
  return (
    <section class="sheet" aria-labelledby="dated-title">
      <h2 id="dated-title">{words.dated}</h2>
      <ul class="stack">
        {items.map((one) => (
          <Line key={`${one.item} ${one.place} ${one.seal}`} one={one} />
        ))}
      </ul>
    </section>
  );
}

function Line({ one }: { one: DatedItem }) {
  const { item, place, seal, expires, state } = one;
  const isLate = state === "expired" || state === "during";
  const said = words.dates[state](expires === null ? "" : dayText(expires));
  return (
    <li>
      <span class="strong">{begun(place === "" ? item : `${item}, ${place}`)}</span>
      {said !== "" && <p class={isLate ? "warn" : state === "soon" ? "" : "soft"}>{said}</p>}
      {seal !== "" && <p class="soft">{words.seal(seal)}</p>}
    </li>
  );
}

/** A name from the set-up with a capital to begin with. */
const begun = (name: string) => name.charAt(0).toUpperCase() + name.slice(1);

/** "31 May 2027" of a day that has no time in it. */
