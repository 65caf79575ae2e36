/** The PIN of who speaks: chosen or changed. */

import { useState } from "preact/hooks";
import { NewPin, type TwicePin, wrongWith } from "../bits/NewPin";
import { PinField } from "../bits/PinField";
import { ProblemLine } from "../bits/Problem";
import { useDraft } from "../bits/useDraft";
import { useOpen } from "../bits/useOpen";
import { usePending } from "../bits/usePending";
import type { ScreenProps } from "../screen";
import { people as words } from "../words/people";

const EMPTY: TwicePin = { pin: "", again: "" };

export function Pin({ state, actions }: ScreenProps) {
  const has_pin = state.identity?.has_pin ?? false;
  const form = useOpen();
  const { draft, change, reset } = useDraft({ old: "", chosen: EMPTY });
  const [kept, setKept] = useState(false);
  const { busy, problem, run } = usePending();
  const keep = () =>
    run(async () => {
      await actions.setPin(draft.chosen.pin, draft.old);
      reset();
      form.close();
      setKept(true);
    }, wrongWith(draft.chosen));
  return (
    <section class="sheet" aria-labelledby="pin-title">
      <h2 id="pin-title">{words.pinTitle}</h2>
      <p>{words.pinWhy}</p>
      <p role="status">{kept ? words.pinKept : has_pin ? words.pinHas : ""}</p>
      <button type="button" class="button" aria-expanded={form.isOpen} onClick={form.toggle}>
        {has_pin ? words.pinChange : words.pinTitle}
      </button>
      {form.isOpen && (
        <>
          {has_pin && <PinField label={words.pinOld} value={draft.old} onChange={(old) => change({ old })} />}
          <NewPin value={draft.chosen} onChange={(chosen) => change({ chosen })} />
          <button type="button" class="button main" disabled={busy} onClick={keep}>
            {words.pinSet}
          </button>
        </>
      )}
      <ProblemLine text={problem} />
    </section>
  );
}
