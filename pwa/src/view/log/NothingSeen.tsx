/** One tap that says: nothing seen on that stage, in the words that are true; then that it was said, with undo. */

import { useMemo, useRef } from "preact/hooks";
import type { Actions } from "../../flow/model";
import { nothingNow } from "../../report/nothing_seen";
import { mayVoid } from "../../report/voided";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import type { CarScreen } from "../screen";
import { entriesOf } from "../../report/lists";
import { useArmed } from "../ui/useArmed";
import { common } from "../words/common";
import { log } from "../words/log";

/** The stage whose time has come, or what was said of the last one; nothing where neither is there. */
export function NothingSeen({ state, setup, car, actions }: CarScreen) {
  // By the minute: what stands in the log is not gone through again at each drawing.
  const minute = Math.floor(state.now / 60_000);
  const { ask, said } = useMemo(
    () => nothingNow(entriesOf(state.entries), car, setup, minute * 60_000),
    [state.entries, car, setup, minute],
  );
  const title = useRef<HTMLHeadingElement>(null);
  const toTitle = () => title.current?.focus({ preventScroll: true });
  if (ask === null && said === null) return null;
  return (
    <section class="stack" aria-labelledby="nothing-title">
      <h2 id="nothing-title" ref={title} tabIndex={-1}>
        {said ? log.nothingSaid(said.data.stage) : log.nothingTitle(ask ?? "")}
      </h2>
      {ask !== null && <Ask stage={ask} actions={actions} onSaid={toTitle} />}
      {said && state.identity && mayVoid(said, state.identity.person, setup) && (
        <Undo key={said.id} id={said.id} stage={said.data.stage} actions={actions} onUndone={toTitle} />
      )}
    </section>
  );
}

function Ask({ stage, actions, onSaid }: { stage: string; actions: Actions; onSaid: () => void }) {
  const { busy, problem, run } = usePending();
  const say = (how: "from-seat" | "walked-round") =>
    run(async () => {
      await actions.nothingSeen(stage, how);
      onSaid();
    });
  return (
    <>
      <div class="row even">
        <button type="button" class="button" disabled={busy} onClick={() => say("from-seat")}>
          {log.nothingSeat}
        </button>
        <button type="button" class="button" disabled={busy} onClick={() => say("walked-round")}>
          {log.nothingRound}
        </button>
      </div>
      <ProblemLine text={problem} />
    </>
  );
}

interface Undo {
  id: string;
  stage: string;
  actions: Actions;
  onUndone: () => void;
}

function Undo({ id, stage, actions, onUndone }: Undo) {
  const { busy, problem, run } = usePending();
  const armed = useArmed(id);
  const undo = () =>
    run(async () => {
      await actions.voidEntry(id, common.undoReason);
      onUndone();
    });
  return (
    <>
      <div class="row even">
        <button
          type="button"
          class="button"
          disabled={busy || !armed}
          aria-label={`${common.undo}: ${log.nothingSaid(stage)}`}
          onClick={undo}
        >
          {common.undo}
        </button>
      </div>
      <ProblemLine text={problem} />
    </>
  );
}
