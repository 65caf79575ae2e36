/** Nobody has joined on this phone yet, or another person is to: the code of an invitation. */

import type { Actions } from "../../flow/model";
import { isPin } from "../../kit/pin_shape";
import { PinField } from "../bits/PinField";
import { ProblemLine } from "../bits/Problem";
import { useDraft } from "../bits/useDraft";
import { usePending } from "../bits/usePending";
import { people } from "../words/people";

export function Join({ problem, actions }: { problem: string | null; actions: Actions }) {
  const { draft, change } = useDraft({ code: "", pin: "" });
  const code = draft.code.trim();
  const pending = usePending();
  const wrong = draft.pin !== "" && !isPin(draft.pin) ? people.join.pinShape : null;
  const join = () => pending.run(() => actions.join(code, draft.pin), wrong);
  return (
    <div class="stack">
      <p>{people.join.how}</p>
      <ProblemLine text={pending.problem ?? problem} />
      <label>
        <span class="label">{people.join.code}</span>
        <input
          type="text"
          value={draft.code}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          onInput={(event) => change({ code: event.currentTarget.value })}
        />
      </label>
      <PinField label={people.join.pin} value={draft.pin} onChange={(pin) => change({ pin })} />
      <button type="button" class="button main" disabled={pending.busy || code === ""} onClick={join}>
        {pending.busy ? people.join.joining : people.join.button}
      </button>
    </div>
  );
}
