/** Each person's next task in large letters, the one of who uses the phone first. */

import type { HeldPlan } from "../../flow/model";
import { nextOf, peopleOf } from "../../report/plan";
import { personName } from "../labels";
import { plan as words } from "../words/plan";
import { spanOf, taskHref, taskLabel } from "./labels";
import { TaskButtons } from "./TaskButtons";
import type { Planning } from "./usePlanning";

export function NextTasks(planning: Planning & { held: HeldPlan }) {
  const { state, setup, held, standing } = planning;
  const mine = state.identity?.person ?? null;
  const people = peopleOf(held.plan, mine);
  return (
    <section class="stack" aria-labelledby="next-title">
      <h2 id="next-title">{words.next}</h2>
      <ul class="next">
        {people.map((person) => {
          const task = nextOf(held.plan, person, standing);
          const isMine = person === mine;
          const isUnder = task !== null && standing.get(task.task)?.state === "under-way";
          return (
            <li key={person} class={isMine ? "sheet mine" : "sheet"}>
              <p class="strong">{isMine ? (isUnder ? words.nowMine : words.nextMine) : personName(setup, person)}</p>
              {task ? (
                <>
                  <a class="large" href={taskHref(task.task)}>
                    {taskLabel(setup, task)}
                  </a>
                  <p>
                    {spanOf(held.plan, setup, task)}
                    {isUnder && `, ${words.under}`}
                  </p>
                  {isMine && <TaskButtons {...planning} task={task} />}
                </>
              ) : (
                <p>{words.nothingNext}</p>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
