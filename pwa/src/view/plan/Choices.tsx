/** The plans that are at hand, as two or three cards of which one is worked by; and a newer plan that is offered. */

import type { HeldPlan } from "../../flow/model";
import { type Change, changesBetween, choices } from "../../report/choices";
import type { OtherPlan } from "../../report/plan";
import { personName } from "../labels";
import { plan as words } from "../words/plan";
import { type ChoiceCard, ChoiceCards } from "./ChoiceCards";
import { chanceOf } from "./Facts";
import { clockAt, namesOf, taskLabel } from "./labels";
import type { Planning } from "./usePlanning";

type WithPlan = Planning & { held: HeldPlan };

export function Choices({ held, service, setup, actions }: WithPlan) {
  const { plan } = held;
  return (
    <ChoiceCards
      cards={choices(plan).map((one) => cardOf(one, clockAt(plan, setup, one.finish_s)))}
      chosen={plan.choice}
      onPick={(choice) => actions.choosePlan(service.service, choice)}
    />
  );
}

function cardOf(one: OtherPlan, ready: string): ChoiceCard {
  const late = one.late_min > 0;
  const left = one.left_out.filter((out) => out.why !== "value").length;
  return {
    choice: one.choice,
    name: (one.choice === "on-time" && late ? words.choice.late_name : words.choice.name[one.choice]) ?? one.choice,
    lines: [`${words.choice.left(left)} · ${words.choice.likely(ready)}`],
    figure: late ? words.choice.late(one.late_min, one.penalty_s) : words.timesInTen(chanceOf(one.on_time)),
    late,
    holds: one.choice === "on-hold" ? words.choice.onHold : null,
  };
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
