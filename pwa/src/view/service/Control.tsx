/** Into and out of a control where nobody may work on the car, one tap each, by the clock of now. */

import type { Control as Where } from "../../report/controls";
import { noWork } from "../../report/controls";
import { entriesOf } from "../../report/lists";
import { clockIn } from "../../kit/time";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import type { CarScreen } from "../screen";
import { arrival as words } from "../words/arrival";

export function Control({ state, setup, car, actions }: CarScreen) {
  const { busy, problem, run } = usePending();
  const now = clockIn(setup.timezone, state.now);
  const here = noWork(entriesOf(state.entries), car, setup);
  const own = here?.open.find((one) => one.kind === "control.entered" && one.person === state.identity?.person);
  return (
    <section class="sheet" aria-labelledby="control-title">
      <h2 id="control-title">{words.where}</h2>
      {here ? (
        <>
          <p class="strong">{words.since(words.control[here.control], clockIn(setup.timezone, here.since_ms))}</p>
          <p>{words.look}</p>
          <button
            type="button"
            class="button main"
            disabled={busy}
            onClick={() => run(() => actions.leaveControl(now))}
          >
            {words.out}
          </button>
          {own && (
            <button
              type="button"
              class="button quiet"
              disabled={busy}
              onClick={() => run(() => actions.voidEntry(own.id, words.undoReason))}
            >
              {words.undo}
            </button>
          )}
        </>
      ) : (
        <>
          <div class="row even">
            {(Object.keys(words.control) as Where[]).map((control) => (
              <button
                key={control}
                type="button"
                class="button"
                disabled={busy}
                onClick={() => run(() => actions.enterControl(control, now))}
              >
                {words.into(words.control[control])}
              </button>
            ))}
          </div>
          <p class="soft">{words.whereNote}</p>
        </>
      )}
      <ProblemLine text={problem} />
    </section>
  );
}
