/** What more minutes and other hands buy, the lateness used, and what the musts need where they do not fit. */

import type { HeldPlan } from "../../flow/model";
import type { EventSetup } from "../../kit/api";
import type { ShownPlan } from "../../report/plan";
import { common } from "../words/common";
import { plan as words } from "../words/plan";
import { buysNothing, type Gain, gainsOf } from "./gains";
import { clockAt, thingLabel } from "./labels";
import type { Planning } from "./usePlanning";

interface Part {
  plan: ShownPlan;
  setup: EventSetup;
}

export function Buys({ held, setup }: Planning & { held: HeldPlan }) {
  const { plan } = held;
  return (
    <>
      <Later plan={plan} setup={setup} />
      {plan.hands.length > 0 && <Hands plan={plan} setup={setup} />}
    </>
  );
}

/** The least that all musts take, where they do not fit. */
export function Needs({ needs }: { needs: NonNullable<ShownPlan["needs"]> }) {
  return (
    <section class="sheet needs" aria-labelledby="needs-title">
      <h2 id="needs-title">{words.needs.title}</h2>
      <p>
        {words.needs.least(needs.minutes, needs.leave_late_min)}{" "}
        <b>{needs.penalty_s === null ? words.needs.past : words.needs.penalty(needs.penalty_s)}</b>{" "}
        <span class="soft">{words.rulesDecide}</span>
      </p>
    </section>
  );
}

function Later({ plan, setup }: Part) {
  const { lateness, left_out, settled } = plan;
  const rows = gainsOf(plan.later);
  const gains = rows.every(buysNothing) ? [] : rows;
  const nothing = !settled
    ? words.unsettled
    : left_out.every((one) => one.why === "value")
      ? words.buys.nobodyLate
      : words.buys.nothing;
  return (
    <section class="sheet" aria-labelledby="later-title">
      <h2 id="later-title">{words.buys.title}</h2>
      {lateness && <p>{words.lateness(lateness.used_min, lateness.left_min)}</p>}
      {gains.length === 0 ? (
        <p>{nothing}</p>
      ) : (
        <table class="later">
          <caption class="unseen">{words.buys.title}</caption>
          <thead>
            <tr>
              <th scope="col">{words.buys.column.late}</th>
              <th scope="col">{words.buys.column.penalty}</th>
              <th scope="col">{words.buys.column.adds}</th>
            </tr>
          </thead>
          <tbody>
            {gains.map((one, place) => (
              <tr key={one.leave_late_min}>
                <th scope="row">{words.buys.row(one.leave_late_min, one.to_late_min)}</th>
                <td>{words.buys.penalty(one.penalty_s, penaltyTo(plan, one))}</td>
                <td>
                  {buysNothing(one) ? (place === 0 ? words.buys.none : words.buys.noMore) : listed(setup, one.comes_in)}
                  {one.drops_out.length > 0 && ` ${words.buys.drops(listed(setup, one.drops_out))}`}
                  {!one.proven && plan.settled && <span class="soft"> ({words.buys.notProven})</span>}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p class="soft">{words.rulesDecide}</p>
    </section>
  );
}

const penaltyTo = ({ lateness }: ShownPlan, { penalty_s, leave_late_min, to_late_min }: Gain) =>
  penalty_s + (to_late_min - leave_late_min) * (lateness?.late_penalty_s_per_minute ?? 0);

function Hands({ plan, setup }: Part) {
  return (
    <section class="sheet" aria-labelledby="hands-title">
      <h2 id="hands-title">{words.hands.title}</h2>
      {plan.hands.map((one) => (
        <div key={one.mechanics}>
          <h3>{words.hands.with(one.mechanics)}</h3>
          {one.adds.length > 0 && <p>{common.and(words.hands.adds, listed(setup, one.adds))}</p>}
          {one.drops.length > 0 && <p>{common.and(words.hands.drops, listed(setup, one.drops))}</p>}
          <p>
            {one.adds.length + one.drops.length === 0 && `${words.hands.same} `}
            {words.hands.ends(clockAt(plan, setup, one.finish_s))}
            {!one.proven && <span class="soft"> ({words.buys.notProven})</span>}
          </p>
        </div>
      ))}
    </section>
  );
}

const listed = (setup: EventSetup, groups: string[]) =>
  groups.map((group) => thingLabel(setup, group)).join(words.also);
