/** Nobody has joined on this phone yet, or another person is to: the code of an invitation. */

import type { Actions } from "../../flow/model";
import { isPin } from "../../kit/pin_shape";
import { PinField } from "../bits/PinField";
import { ProblemLine } from "../bits/Problem";
import { useDraft } from "../bits/useDraft";
import { usePending } from "../bits/usePending";
import { common } from "../words/common";
import { people } from "../words/people";

interface JoinProps {
  problem: string | null;
  /** What the app says besides, where nobody is here to be told it elsewhere. */
  said?: string | undefined;
  /** Whose phone it was until a link was followed; nobody's where it is left out. */
  here?: string | undefined;
  actions: Actions;
}

export function Join({ problem, said, here, actions }: JoinProps) {
  if (here !== undefined) return <Following problem={problem} here={here} />;
  return <ByCode problem={problem ?? said ?? null} actions={actions} />;
}

/** The link is being followed, or the server did not answer: who was here before can go on. */
function Following({ problem, here }: { problem: string | null; here: string }) {
  return (
    <div class="stack">
      {problem === null && <p>{people.join.joining}</p>}
      <ProblemLine text={problem} />
      {problem !== null && (
        <button type="button" class="button main" onClick={() => location.reload()}>
          {common.tryAgain}
        </button>
      )}
      <a class="button" href="#/">
        {people.join.stay(here)}
      </a>
    </div>
  );
}

function ByCode({ problem, actions }: { problem: string | null; actions: Actions }) {
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
