/** Nobody has joined on this phone yet, or another person is to: the code of an invitation. */

import { useState } from "preact/hooks";
import type { Actions } from "../../flow/model";
import { isPin } from "../../kit/pin_shape";
import { PinField } from "../bits/PinField";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { common } from "../words/common";

export function Join({ problem, actions }: { problem: string | null; actions: Actions }) {
  const [code, setCode] = useState("");
  const [pin, setPin] = useState("");
  const [wrong, setWrong] = useState(false);
  const pending = usePending();
  const join = () => {
    const isWrong = pin !== "" && !isPin(pin);
    setWrong(isWrong);
    if (!isWrong) void pending.run(() => actions.join(code.trim(), pin));
  };
  return (
    <div class="stack">
      <p>{common.join.how}</p>
      <ProblemLine text={wrong ? common.join.pinShape : (pending.problem ?? problem)} />
      <label>
        <span class="label">{common.join.code}</span>
        <input
          type="text"
          value={code}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          onInput={(event) => setCode(event.currentTarget.value)}
        />
      </label>
      <PinField label={common.join.pin} value={pin} onChange={setPin} />
      <button type="button" class="button main" disabled={pending.busy || code.trim() === ""} onClick={join}>
        {pending.busy ? common.join.joining : common.join.button}
      </button>
    </div>
  );
}
