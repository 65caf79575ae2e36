/** The PIN of who speaks: chosen or changed. */

import { useState } from "preact/hooks";
import { NewPin, type TwicePin, wrongWith } from "../bits/NewPin";
import { PinField } from "../bits/PinField";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import type { ScreenProps } from "../screen";
import { people as words } from "../words/people";

const EMPTY: TwicePin = { pin: "", again: "" };

export function Pin({ state, actions }: ScreenProps) {
  const has_pin = state.identity?.has_pin ?? false;
  const [open, setOpen] = useState(false);
  const [old, setOld] = useState("");
  const [chosen, setChosen] = useState(EMPTY);
  const [wrong, setWrong] = useState<string | null>(null);
  const [kept, setKept] = useState(false);
  const { busy, problem, run } = usePending();
  const keep = () => {
    const why = wrongWith(chosen);
    setWrong(why);
    if (why) return;
    void run(async () => {
      await actions.setPin(chosen.pin, old);
      setOld("");
      setChosen(EMPTY);
      setOpen(false);
      setKept(true);
    });
  };
  return (
    <section class="sheet" aria-labelledby="pin-title">
      <h2 id="pin-title">{words.pinTitle}</h2>
      <p>{words.pinWhy}</p>
      <p role="status">{kept ? words.pinKept : has_pin ? words.pinHas : ""}</p>
      <button type="button" class="button" aria-expanded={open} onClick={() => setOpen(!open)}>
        {has_pin ? words.pinChange : words.pinTitle}
      </button>
      {open && (
        <>
          {has_pin && <PinField label={words.pinOld} value={old} onChange={setOld} />}
          <NewPin value={chosen} onChange={setChosen} />
          <button type="button" class="button main" disabled={busy} onClick={keep}>
            {words.pinSet}
          </button>
        </>
      )}
      <ProblemLine text={wrong ?? problem} />
    </section>
  );
}
