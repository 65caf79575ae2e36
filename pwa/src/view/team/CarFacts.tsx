/** Each car's end against its time out: in hand or late, by how much; for who leads how likely that is kept. */

import type { EventSetup } from "../../kit/api";
import { clockIn, msOf } from "../../kit/time";
import { chanceOf } from "../plan/Facts";
import { clockAt, lasts, zeroOf } from "../plan/labels";
import { CarMark } from "../lanes/CarMark";
import { plan as planWords } from "../words/plan";
import { team as words } from "../words/team";
import type { Part, Teaming } from "./useTeam";

export function CarFacts(teaming: Teaming) {
  const { parts } = teaming;
  return (
    <section aria-labelledby="cars-title">
      <h2 id="cars-title" class="unseen">
        {words.cars}
      </h2>
      <ul class="team-cars">
        {parts.map((part, place) => (
          <Car key={part.plan.car} {...teaming} part={part} place={place} />
        ))}
      </ul>
    </section>
  );
}

function Car({ setup, leads, part, place }: Teaming & { part: Part; place: number }) {
  const { plan } = part;
  const late = plan.late_min > 0;
  const holds = plan.needs !== null && !late;
  const hand = inHand(plan.spare_s);
  const left = plan.left_out.filter((one) => one.why !== "value").length;
  const label = setup.cars.find((one) => one.car === plan.car)?.label;
  return (
    <li class={late ? "team-car late" : "team-car"}>
      <CarMark car={plan.car} place={place} />
      <div>
        <p class="team-end">
          <b class={late || holds ? "warn" : ""}>{late ? words.late(plan.late_min) : holds ? words.holds : hand}</b>
          {late && <span class="warn"> {words.penalty(plan.penalty_s)}</span>}
          {!late && holds && <span> {hand}</span>}
        </p>
        <p>{times(setup, part)}</p>
        {leads && <p>{(late ? words.byThen : words.onTime)(planWords.timesInTen(chanceOf(plan.on_time)))}</p>}
        {holds && <Holds needs={plan.needs} />}
        <p class="soft">
          {label && !label.includes(plan.car) && `${label} · `}
          {left === 0 ? words.all : words.left(left)}
          {plan.entered_at === null && ` · ${notIn(setup, part)}`}
        </p>
      </div>
    </li>
  );
}

const inHand = (spare_s: number) => (spare_s < 15 ? words.none_in_hand : words.inHand(lasts(spare_s)));

/** "Ready 10:41 · leave the bay by 10:45 · due out 10:50". */
function times(setup: EventSetup, { plan }: Part): string {
  const due_ms = plan.due_out === null ? null : msOf(plan.due_out);
  return [
    words.ready(clockAt(plan, setup, plan.finish_s)),
    words.leave(clockAt(plan, setup, plan.work_s)),
    ...(due_ms === null ? [] : [words.due(clockIn(setup.timezone, due_ms))]),
  ].join(" · ");
}

function notIn(setup: EventSetup, { plan }: Part): string {
  const zero = zeroOf(plan, setup);
  return zero === null ? planWords.noClock : words.notIn(clockIn(setup.timezone, zero));
}

/** Why it leaves on hold, and what all that holds it would take. */
function Holds({ needs }: { needs: Part["plan"]["needs"] }) {
  return (
    <p>
      {words.onHold}
      {needs &&
        ` ${planWords.needs.least(needs.minutes, needs.leave_late_min)} ${
          needs.penalty_s === null ? planWords.needs.past : planWords.needs.penalty(needs.penalty_s)
        }`}
    </p>
  );
}
