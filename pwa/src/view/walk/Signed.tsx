/** After signing: kept, and the paper at once. */

import { useEffect, useRef } from "preact/hooks";
import { SendingMark } from "../bits/SendingMark";
import { type SignedWalk, walksOf } from "../../report/walks";
import type { CarScreen } from "../screen";
import { walk as words } from "../words/walk";
import { PaperMaker } from "./PaperMaker";
import { entriesOf } from "../../report/lists";

export function Signed(props: CarScreen & { id: string; onBack: () => void }) {
  const { state, car, id, onBack } = props;
  const entries = entriesOf(state.entries);
  const walk: SignedWalk | null = walksOf(entries, car).find((one) => one.id === id) ?? null;
  const top = useRef<HTMLHeadingElement>(null);
  useEffect(() => top.current?.focus({ preventScroll: true }), []);
  const held = state.entries.find((one) => one.entry.id === id);
  return (
    <>
      <section class="sheet" aria-live="polite">
        <h2 ref={top} tabIndex={-1}>
          {words.signed}
        </h2>
        {walk && <p class="strong">{words.kind[walk.data.walk]}</p>}
        <p>{words.signedHow}</p>
        <SendingMark sending={held?.sending ?? "waiting"} />
      </section>
      {walk && <PaperMaker {...props} walk={walk} atOnce />}
      <button type="button" class="button wide" onClick={onBack}>
        {words.another}
      </button>
    </>
  );
}
