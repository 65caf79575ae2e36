/** The next task of who uses the phone, in large letters, with its buttons. Everybody's stands on the lanes. */

import type { HeldPlan } from "../../flow/model";
import { nextOf, peopleOf } from "../../report/plan";
import { plan as words } from "../words/plan";
import { lasts, namesOf, spanOf, taskHref, taskLabel } from "./labels";
import { TaskButtons } from "./TaskButtons";
import type { Planning } from "./usePlanning";

export function MyTask(planning: Planning & { held: HeldPlan }) {
  const { state, setup, held, standing } = planning;
  const mine = state.identity?.person ?? null;
  if (mine === null || !peopleOf(held.plan, null).includes(mine)) return null;
  const task = nextOf(held.plan, mine, standing);
  const isUnder = task !== null && standing.get(task.task)?.state === "under-way";
  const others = task?.people.filter((one) => one !== mine) ?? [];
  return (
    <section class="my-task" aria-labelledby="mine-title">
      <h2 id="mine-title">{isUnder ? words.nowMine : words.nextMine}</h2>
      {task ? (
        <>
          <a class="large" href={taskHref(task.task)}>
            {taskLabel(setup, task)}
          </a>
          <p>
            {spanOf(held.plan, setup, task)} · {lasts(task.end_s - task.start_s)}
            {others.length > 0 && ` · ${words.with(namesOf(setup, others))}`}
          </p>
          <TaskButtons {...planning} task={task} />
        </>
      ) : (
        <p>{words.nothingNext}</p>
      )}
    </section>
  );
}
