/** Who is on what, when: a lane for each person on one clock, as wide as the screen. All of it leads to the plan. */

import type { HeldPlan } from "../../flow/model";
import type { PlanTask } from "../../kit/api";
import { nextOf, peopleOf, tasksOf } from "../../report/plan";
import { personName } from "../labels";
import { nowOn } from "../plan/Facts";
import { clockAt, shortLabel, spanOf, taskLabel } from "../plan/labels";
import type { Planning } from "../plan/usePlanning";
import { SectionHeader } from "../ui/Row";
import { service as words } from "../words/service";

/** So many marks of the clock stand above the lanes. */
const MARKS = 4;

type Lanes = Planning & { held: HeldPlan };

export function Everybody(props: Lanes) {
  const { state, setup, held } = props;
  const { plan } = held;
  const from_s = Math.min(0, ...plan.tasks.map((task) => task.start_s));
  const to_s = Math.max(plan.work_s, ...plan.tasks.map((task) => task.end_s), from_s + 60);
  const at = (s: number) => `${((100 * (s - from_s)) / (to_s - from_s)).toFixed(2)}%`;
  const now_s = nowOn(held, setup, state.now);
  const marks = Array.from({ length: MARKS }, (_, place) => from_s + ((to_s - from_s) * place) / MARKS);
  return (
    <section class="everybody">
      <SectionHeader id="everybody" title={words.everybody} />
      <a href="#/plan" aria-labelledby="everybody everybody-next">
        <span class="everybody-clock" aria-hidden="true">
          {marks.map((s) => (
            <span key={s}>{clockAt(plan, setup, s)}</span>
          ))}
        </span>
        {peopleOf(plan, state.identity?.person ?? null).map((person) => (
          <Lane key={person} {...props} {...{ person, at, now_s }} />
        ))}
      </a>
    </section>
  );
}

interface LaneProps extends Lanes {
  person: string;
  at: (s: number) => string;
  now_s: number | null;
}

function Lane({ setup, held, standing, person, at, now_s }: LaneProps) {
  const next = nextOf(held.plan, person, standing);
  const name = personName(setup, person);
  return (
    <span class="everybody-lane">
      <span class="everybody-name">{name}</span>
      <svg width="100%" height="32" aria-hidden="true" focusable="false">
        {tasksOf(held.plan, person).map((task) => (
          <Block
            key={task.task}
            {...{ task, at }}
            state={standing.get(task.task)?.state ?? task.state}
            label={shortLabel(setup, task)}
          />
        ))}
        {now_s !== null && <line class="now" x1={at(now_s)} x2={at(now_s)} y1="0" y2="32" />}
      </svg>
      <span class="unseen">
        {next ? `${taskLabel(setup, next)}, ${spanOf(held.plan, setup, next)}` : words.nothingNext}
      </span>
    </span>
  );
}

interface BlockProps {
  task: PlanTask;
  state: string;
  label: string;
  at: (s: number) => string;
}

/** As wide as it takes long; its words end where it ends. */
function Block({ task, state, label, at }: BlockProps) {
  const width = `${(Number.parseFloat(at(task.end_s)) - Number.parseFloat(at(task.start_s))).toFixed(2)}%`;
  return (
    // A part of the lane's drawing, which is hidden from screen readers as a whole.
    // biome-ignore lint/a11y/noSvgWithoutTitle: the lane says in words what it draws
    <svg class={`block ${task.kind} ${state}`} x={at(task.start_s)} y="2" width={width} height="28">
      <rect x="0.5" y="0.5" width="100%" height="27" rx="4" />
      <text x="5" y="18">
        {label}
      </text>
    </svg>
  );
}
