/** Each person's tasks in the order of the clock, the one of who uses the phone first; what is done stays, struck out. */

import type { HeldPlan } from "../../flow/model";
import type { PlanTask } from "../../kit/api";
import { peopleOf, tasksOf } from "../../report/plan";
import { personName } from "../labels";
import { plan as words } from "../words/plan";
import { useReturn } from "./backTo";
import { lasts, listId, namesOf, spanOf, taskHref, taskLabel } from "./labels";
import { TaskLines } from "./TaskLines";
import type { Planning } from "./usePlanning";

type WithPlan = Planning & { held: HeldPlan };

export function TaskLists(planning: WithPlan) {
  const { state, setup, held } = planning;
  useReturn();
  const mine = state.identity?.person ?? null;
  return (
    <div class="task-lists">
      {peopleOf(held.plan, mine).map((person) => (
        <section key={person} aria-labelledby={listId(person)}>
          <h2 id={listId(person)} tabIndex={-1}>
            {personName(setup, person)}
            {person === mine && <span class="soft"> ({words.you})</span>}
          </h2>
          <Tasks {...planning} person={person} />
        </section>
      ))}
    </div>
  );
}

function Tasks({ person, ...planning }: WithPlan & { person: string }) {
  const tasks = tasksOf(planning.held.plan, person);
  if (!tasks.length) return <p class="soft">{words.sheet.nothing}</p>;
  return (
    <ul class="task-list">
      {tasks.map((task) => (
        <Task key={task.task} {...planning} task={task} person={person} />
      ))}
    </ul>
  );
}

function Task({ setup, held, standing, task, person }: WithPlan & { task: PlanTask; person: string }) {
  const state = standing.get(task.task)?.state ?? task.state;
  const [what, others] = [taskLabel(setup, task), task.people.filter((one) => one !== person)];
  const said = words.spoken(
    spanOf(held.plan, setup, task),
    what,
    namesOf(setup, task.people),
    words.state[state] ?? state,
  );
  return (
    <li>
      <a class={`lane-task ${state}`} href={taskHref(task.task)} aria-label={said}>
        <TaskLines
          when={spanOf(held.plan, setup, task)}
          what={what}
          how={[
            lasts(task.end_s - task.start_s),
            others.length > 0 && words.with(namesOf(setup, others)),
            state !== "planned" && words.state[state],
          ]}
        />
      </a>
    </li>
  );
}
