/** The first screenful of a service: minutes left, what this person does next, who is on what. */

import type { Service } from "../../kit/api";
import { clockIn } from "../../kit/time";
import type { CurrentService } from "../../report/service";
import { nextOf } from "../../report/plan";
import { spanOf, taskHref, taskLabel } from "../plan/labels";
import { TaskButtons } from "../plan/TaskButtons";
import { type Planning, usePlanning } from "../plan/usePlanning";
import type { CarScreen } from "../screen";
import { Card } from "../ui/Card";
import { Figure } from "../ui/Figure";
import { plan } from "../words/plan";
import { service as words } from "../words/service";
import { minutesLeft } from "./clock";
import { Everybody } from "./Everybody";

/** Of the time that driving in and out takes, this much is driving in where the set-up says only the sum, minutes. */
const DRIVING_IN_MIN = 2;

const LONG_MIN = 60;

interface LeftProps extends CarScreen {
  service: Service;
  current: CurrentService;
}

/** How long there is: until the bay is left, and until the car is due out. */
export function Left({ state, setup, service, current }: LeftProps) {
  const due_ms = current.due_out_ms;
  if (due_ms === null) return null;
  const out_min = Math.max(0, service.in_and_out_minutes - DRIVING_IN_MIN);
  const leave_ms = due_ms - out_min * 60_000;
  const left = minutesLeft(leave_ms, state.now);
  const clocks = words.leaveBay(clockIn(setup.timezone, leave_ms), clockIn(setup.timezone, due_ms));
  const over = minutesLeft(due_ms, state.now);
  // Somebody forgot to say that it left: minutes past due say nothing any more.
  if (over < -LONG_MIN) return <p class="warn">{words.longOver}</p>;
  return (
    <div class="service-left">
      <Figure size="largest" value={String(left)} unit={words.min} label={clocks} tone={left < 0 ? "hold" : "plain"} />
      {over <= 0 && <p class="warn">{over === 0 ? words.now : words.over(-over)}</p>}
    </div>
  );
}

/** The person's own next task and everybody's lanes, where the service has a plan. */
export function Planned(props: CarScreen & { service: Service }) {
  const planning = usePlanning(props, props.service);
  const { held } = planning;
  if (!held) {
    return (
      <a class="ui-button is-secondary is-usual" href="#/plan">
        {plan.toPlan}
      </a>
    );
  }
  return (
    <>
      <Mine {...planning} held={held} />
      <Everybody {...planning} held={held} />
    </>
  );
}

function Mine(planning: Planning & { held: NonNullable<Planning["held"]> }) {
  const { state, setup, held, standing } = planning;
  const person = state.identity?.person ?? "";
  if (!held.plan.people.some((one) => one.person === person)) return null;
  const task = nextOf(held.plan, person, standing);
  return (
    <Card strong={task !== null}>
      <h2 class="soft small">{words.mine}</h2>
      {task ? (
        <>
          <a class="ui-card-title" href={taskHref(task.task)}>
            {taskLabel(setup, task)}
          </a>
          <p>{spanOf(held.plan, setup, task)}</p>
          <TaskButtons {...planning} task={task} />
        </>
      ) : (
        <p>{words.nothingNext}</p>
      )}
    </Card>
  );
}
