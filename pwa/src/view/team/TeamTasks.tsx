/** Each person's tasks at all cars in the order of the clock. A repair or an inspection leads to its job, at its car. */

import type { PlanTask } from "../../kit/api";
import { personName } from "../labels";
import { CarMark } from "../lanes/CarMark";
import { lasts, listId, namesOf, spanOf, taskLabel } from "../plan/labels";
import { TaskLines } from "../plan/TaskLines";
import { jobHref } from "../queue/links";
import { plan as planWords } from "../words/plan";
import { team as words } from "../words/team";
import { peopleOfAll, tasksOfAll } from "./people";
import type { Part, Teaming } from "./useTeam";

export function TeamTasks(teaming: Teaming) {
  const { state, setup, parts } = teaming;
  const mine = state.identity?.person ?? null;
  return (
    <div class="task-lists">
      {peopleOfAll(parts, mine).map((person) => (
        <section key={person} aria-labelledby={listId(person)}>
          <h2 id={listId(person)} tabIndex={-1}>
            {personName(setup, person)}
            {person === mine && <span class="soft"> ({planWords.you})</span>}
          </h2>
          <Tasks {...teaming} person={person} />
        </section>
      ))}
    </div>
  );
}

function Tasks({ person, ...teaming }: Teaming & { person: string }) {
  const tasks = tasksOfAll(teaming.parts, person);
  if (!tasks.length) return <p class="soft">{planWords.sheet.nothing}</p>;
  return (
    <ul class="task-list">
      {tasks.map(({ task, car }) => {
        const part = teaming.parts.find((one) => one.plan.car === car);
        return part && <Task key={`${car} ${task.task}`} {...teaming} {...{ part, task, person }} />;
      })}
    </ul>
  );
}

interface TaskProps extends Teaming {
  part: Part;
  task: PlanTask;
  person: string;
}

function Task({ setup, car: chosen, actions, parts, part, task, person }: TaskProps) {
  const { car } = part.plan;
  const state = part.standing.get(task.task)?.state ?? task.state;
  const [when, what] = [spanOf(part.plan, setup, task), taskLabel(setup, task)];
  const others = task.people.filter((one) => one !== person);
  const lines = (
    <>
      <CarMark car={car} place={parts.indexOf(part)} />
      <TaskLines
        when={when}
        what={what}
        how={[
          lasts(task.end_s - task.start_s),
          others.length > 0 && planWords.with(namesOf(setup, others)),
          state !== "planned" && planWords.state[state],
        ]}
      />
    </>
  );
  const said = planWords.spoken(
    when,
    words.taskOf(car, what),
    namesOf(setup, task.people),
    planWords.state[state] ?? state,
  );
  return (
    <li>
      {task.job ? (
        // The job's page shows the car that is chosen: another one is chosen on the way there.
        <a
          class={`lane-task ${state}`}
          href={jobHref(task.job)}
          aria-label={said}
          onClick={() => car !== chosen && actions.chooseCar(car)}
        >
          {lines}
        </a>
      ) : (
        <div class={`lane-task ${state}`}>{lines}</div>
      )}
    </li>
  );
}
