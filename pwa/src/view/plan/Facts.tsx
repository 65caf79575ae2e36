/** How long there is, how likely that is kept, and whether the plan still stands; further down how it was made. */

import type { HeldPlan } from "../../flow/model";
import type { EventSetup } from "../../kit/api";
import { clockIn } from "../../kit/time";
import { Icon } from "../bits/Icon";
import { ProblemLine } from "../bits/Problem";
import { heardAt } from "../labels";
import { minutesLeft } from "../service/clock";
import { plan as words } from "../words/plan";
import { service as serviceWords } from "../words/service";
import { clockAt, zeroOf } from "./labels";
import { lastWish, type Planning } from "./usePlanning";

type WithPlan = Planning & { held: HeldPlan };

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
      {(due_ms !== null || held) && (
        <div class="plan-facts">
          {due_ms !== null && <Left due_ms={due_ms} now_ms={state.now} clock={clockIn(setup.timezone, due_ms)} />}
          {held && <Likely {...planning} held={held} />}
        </div>
      )}
      {held ? <Old {...planning} held={held} /> : <ProblemLine text={planning.pending.problem} />}
    </>
  );
}

function Left({ due_ms, now_ms, clock }: { due_ms: number; now_ms: number; clock: string }) {
  const left = minutesLeft(due_ms, now_ms);
  return (
    <p class={left < 0 ? "plan-left warn" : "plan-left"}>
      <b>{leftSaid(left)}</b>
      <span>
        {serviceWords.due} {clock}
      </span>
    </p>
  );
}

// Somebody forgot to say that it left: minutes past due say nothing any more.
function leftSaid(left: number): string {
  if (left < -60) return serviceWords.longOver;
  return left === 0 ? serviceWords.now : words.lasts.min(left);
}

function Likely({ setup, held: { plan } }: WithPlan) {
  return (
    <p class="plan-likely">
      <b>{(plan.late_min > 0 ? words.byThen : words.onTime)(chanceOf(plan.on_time))}</b>
      <span>{words.likely(clockAt(plan, setup, plan.finish_s))}</span>
    </p>
  );
}

/** What has to be said before the lanes are read: it is late, it is old, it is still being improved. */
function Old(planning: WithPlan) {
  const { plan } = planning.held;
  const { late_min, penalty_s } = plan;
  return (
    <>
      {late_min > 0 && <p class="warn">{words.late(late_min, penalty_s)}</p>}
      {plan.by === "greedy" && <p class="strong">{plan.settled ? words.greedyOnly : words.greedy}</p>}
      {isOld(planning) && (
        <div class="row news" role="status">
          <span class="strong">
            <Icon name="attention" /> {words.stale}
          </span>
        </div>
      )}
      {isOld(planning) && <Again {...planning} />}
    </>
  );
}

const isOld = ({ change, follows }: Planning) => change !== "none" && !follows;

function Again(planning: WithPlan) {
  const { held, pending, ask, rest } = planning;
  const old = isOld(planning);
  return (
    <button
      type="button"
      class={old ? "button main" : "button"}
      disabled={pending.busy}
      onClick={() => ask(lastWish(held))}
    >
      {pending.busy ? words.ask.asking : !old && rest ? words.refresh : words.staleButton}
    </button>
  );
}

/** When the plan was made, how good it is known to be, and a way to have it made again. */
export function HowMade(planning: WithPlan) {
  const { state, setup, held, pending } = planning;
  const { plan } = held;
  return (
    <div class="stack">
      <p class="soft">
        {words.workedOut(heardAt(setup, held.heard_at, state.now))}
        {plan.by === "solver" && ` · ${plan.proven ? words.proven : words.notProven}`}
        {!plan.settled && ` ${words.unsettled}`} {serviceWords.dueNote}
      </p>
      {plan.entered_at === null && !planning.current && <p>{beforeIn(planning, held)}</p>}
      {!isOld(planning) && <Again {...planning} />}
      <ProblemLine text={pending.problem} />
    </div>
  );
}

/** Times in 10, rounded down, so that nothing but a certainty reads as one. */
export const chanceOf = (on_time: number) => Math.floor(on_time * 10 + 1e-9);

function beforeIn({ setup }: Planning, { plan }: HeldPlan): string {
  const zero = zeroOf(plan, setup);
  return zero === null ? words.noClock : words.notIn(clockIn(setup.timezone, zero));
}

/** Now on the tasks' clock, in seconds; null where the car is not in. */
export function nowOn({ plan }: HeldPlan, setup: EventSetup, now_ms: number): number | null {
  const zero = plan.entered_at === null ? null : zeroOf(plan, setup);
  return zero === null ? null : (now_ms - zero) / 1000;
}
