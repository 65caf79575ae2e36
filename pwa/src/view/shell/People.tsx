/** Who uses this phone now: one large button each; whoever chose a PIN is asked for it. */

import { useState } from "preact/hooks";
import type { Identity } from "../../flow/model";
import { PinField } from "../bits/PinField";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import type { ScreenProps } from "../screen";
import { common } from "../words/common";
import { people as words } from "../words/people";

export function People({ state, actions, onDone }: ScreenProps & { onDone: () => void }) {
  const [asked, setAsked] = useState<Identity | null>(null);
  const [pin, setPin] = useState("");
  const { busy, problem, run } = usePending();
  const change = (to: Identity) =>
    run(async () => {
      setPin("");
      await actions.switchPerson(to.person, pin);
      setAsked(null);
      onDone();
    });
  const pick = (to: Identity) => {
    setPin("");
    setAsked(to.has_pin ? to : null);
    if (to.person === state.identity?.person) onDone();
    else if (!to.has_pin) void change(to);
  };
  return (
    <fieldset class="people stack">
      <legend>{words.title}</legend>
      {state.identities.map((one) => (
        <Choice key={one.person} one={one} isNow={one.person === state.identity?.person} onPick={() => pick(one)} />
      ))}
      {asked && (
        <>
          <PinField label={words.pinOf(asked.name)} value={pin} onChange={setPin} />
          <button type="button" class="button main" disabled={busy || pin === ""} onClick={() => void change(asked)}>
            {words.change(asked.name)}
          </button>
        </>
      )}
      <ProblemLine text={problem} />
    </fieldset>
  );
}

function Choice({ one, isNow, onPick }: { one: Identity; isNow: boolean; onPick: () => void }) {
  const roles = one.roles.map((role) => common.role[role] ?? role).join(", ");
  return (
    <button type="button" class="button person" aria-pressed={isNow} onClick={onPick}>
      <span class="strong">{one.name}</span>
      <span class="small">{isNow ? `${roles}, ${words.now}` : roles}</span>
    </button>
  );
}
