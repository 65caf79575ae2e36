/** The plans that are at hand, as two or three cards of which one is worked by; and a newer plan that is offered. */

import type { HeldPlan } from "../../flow/model";
import { type Change, changesBetween, choices } from "../../report/choices";
import type { OtherPlan } from "../../report/plan";
import { personName } from "../labels";
import { plan as words } from "../words/plan";
import { chanceOf } from "./Facts";
import { clockAt, namesOf, taskLabel } from "./labels";
import type { Planning } from "./usePlanning";

type WithPlan = Planning & { held: HeldPlan };

export function Choices(planning: WithPlan) {
  const { held, service, actions } = planning;
  const all = choices(held.plan);
  if (all.length < 2) return null;
  return (
    <fieldset class="plan-choices">
      <legend class="unseen">{words.choice.legend}</legend>
      {all.map((one) => (
        <label key={one.choice} class="plan-choice">
          <input
            type="radio"
            name="plan-choice"
            checked={one.choice === held.plan.choice}
            onChange={() => actions.choosePlan(service.service, one.choice)}
          />
          <Card {...planning} one={one} />
        </label>
      ))}
    </fieldset>
  );
}

function Card({ setup, held, one }: WithPlan & { one: OtherPlan }) {
  const left = one.left_out.filter((out) => out.why !== "value").length;
  return (
    <>
      <span class="plan-choice-lines">
        <b>{one.choice === "on-time" && one.late_min > 0 ? words.choice.late_name : words.choice.name[one.choice]}</b>
        <span>
          {words.choice.left(left)} · {words.choice.likely(clockAt(held.plan, setup, one.finish_s))}
        </span>
        {one.choice === "on-hold" && <span class="warn">{words.choice.onHold}</span>}
      </span>
      <b class={one.late_min > 0 ? "warn" : ""}>
        {one.late_min > 0 ? words.choice.late(one.late_min, one.penalty_s) : words.timesInTen(chanceOf(one.on_time))}
      </b>
    </>
  );
}

/** A newer plan that changes something for somebody: the lanes stay as they are until somebody takes it. */
export function Offer(planning: WithPlan) {
  const { held, service, standing, actions } = planning;
  if (!held.offer) return null;
  const changes = changesBetween(held.plan, held.offer.plan, standing);
  return (
    <section class="sheet plan-offer" role="status">
      <h2>{words.offer.title(changes.length)}</h2>
      <ul class="bulleted">
        {changes.map((change) => (
          <li key={keyOf(change)}>{said(planning, change)}</li>
        ))}
      </ul>
      <div class="row even">
        <button type="button" class="button" onClick={() => actions.answerOffer(service.service, false)}>
          {words.offer.keep}
        </button>
        <button type="button" class="button main" onClick={() => actions.answerOffer(service.service, true)}>
          {words.offer.take}
        </button>
      </div>
    </section>
  );
}

const keyOf = (change: Change) => `${change.kind} ${change.kind === "order" ? change.person : change.task.task}`;

function said({ setup }: WithPlan, change: Change): string {
  if (change.kind === "order") return words.offer.order(personName(setup, change.person));
  const what = taskLabel(setup, change.task);
  return change.kind === "people"
    ? words.offer.people(what, namesOf(setup, change.task.people))
    : words.offer[change.kind](what);
}
