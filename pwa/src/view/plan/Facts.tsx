/** How long there is, how good the plan is, and whether it still stands. */

import type { HeldPlan } from "../../flow/model";
import { clockIn, msOf } from "../../kit/time";
import { Icon } from "../bits/Icon";
import { ProblemLine } from "../bits/Problem";
import { heardAt } from "../labels";
import { Countdown } from "../service/Countdown";
import { plan as words } from "../words/plan";
import { clockAt, zeroOf } from "./labels";
import { lastWish, type Planning } from "./usePlanning";

export function Facts(planning: Planning) {
  const { state, setup, current, elsewhere, held, actions } = planning;
  const due_ms = current?.due_out_ms ?? null;
  return (
    <>
      {elsewhere !== null && (
        <div class="row news">
          <span class="strong">{words.elsewhere(elsewhere)}</span>
          <button type="button" class="button" onClick={() => actions.choosePlanned(elsewhere)}>
            {words.showService(elsewhere)}
          </button>
        </div>
      )}
      {due_ms !== null && <Countdown due_ms={due_ms} now_ms={state.now} clock={clockIn(setup.timezone, due_ms)} />}
      {held ? <Quality {...planning} held={held} /> : <ProblemLine text={planning.pending.problem} />}
    </>
  );
}

function Quality(planning: Planning & { held: HeldPlan }) {
  const { state, setup, held, pending, ask } = planning;
  const { plan } = held;
  const isOld = planning.change !== "none" && !planning.follows;
  return (
    <div class="stack facts">
      {isOld && (
        <div class="row news" role="status">
          <span class="strong">
            <Icon name="attention" /> {words.stale}
          </span>
        </div>
      )}
      <div>
        {howGood(held).map((sentence) => (
          <p key={sentence} class={plan.by === "greedy" ? "strong" : ""}>
            {sentence}
          </p>
        ))}
        <p>{words.ends(clockAt(plan, setup, plan.finish_s), Math.floor(plan.spare_s / 60))}</p>
        <p>{words.chance(chanceOf(plan.on_time))}</p>
        {plan.entered_at === null && !planning.current && <p>{beforeIn(planning, held)}</p>}
        <p class="soft">{words.workedOut(heardAt(setup, held.heard_at, state.now))}</p>
      </div>
      <button
        type="button"
        class={isOld ? "button main" : "button"}
        disabled={pending.busy}
        onClick={() => ask(lastWish(held))}
      >
        {pending.busy ? words.ask.asking : !isOld && planning.rest ? words.refresh : words.staleButton}
      </button>
      <ProblemLine text={pending.problem} />
    </div>
  );
}

/** What may be said of how good a plan is: that it is proven only where it is. */
function howGood({ plan }: HeldPlan): string[] {
  if (plan.by === "greedy") return [plan.settled ? words.greedyOnly : words.greedy];
  const proven = plan.proven ? words.proven : words.notProven;
  return plan.settled ? [proven] : [proven, words.unsettled];
}

// Rounded down, so that nothing but a certainty reads as one.
const chanceOf = (on_time: number) => Math.floor(on_time * 100 + 1e-9);

function beforeIn({ setup }: Planning, { plan }: HeldPlan): string {
  const zero = zeroOf(plan, setup);
  return zero === null ? words.noClock : words.notIn(clockIn(setup.timezone, zero));
}

/** Unix ms of the tasks' clock now, in seconds; null where the car is not in. */
export function nowOn(held: HeldPlan, now_ms: number): number | null {
  const entered = held.plan.entered_at === null ? null : msOf(held.plan.entered_at);
  return entered === null ? null : (now_ms - entered) / 1000;
}
