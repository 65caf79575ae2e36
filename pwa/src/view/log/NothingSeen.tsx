/** One tap that says: nothing seen on that stage, in the words that are true. */

import type { Actions } from "../../flow/model";
import { usePending } from "../bits/usePending";
import { ProblemLine } from "../bits/Problem";
import { log } from "../words/log";

interface NothingSeen {
  stage: string;
  actions: Actions;
}

export function NothingSeen({ stage, actions }: NothingSeen) {
  const { busy, problem, run } = usePending();
  const say = (how: "from-seat" | "walked-round") => run(() => actions.nothingSeen(stage, how));
  return (
    <section class="stack" aria-labelledby="nothing-title">
      <h2 id="nothing-title">{log.nothingTitle(stage)}</h2>
      <div class="row even">
        <button type="button" class="button" disabled={busy} onClick={() => say("from-seat")}>
          {log.nothingSeat}
        </button>
        <button type="button" class="button" disabled={busy} onClick={() => say("walked-round")}>
          {log.nothingRound}
        </button>
      </div>
      <ProblemLine text={problem} />
    </section>
  );
}
