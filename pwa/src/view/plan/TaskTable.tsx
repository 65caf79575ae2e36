/** The plan's tasks as a table, and what is done already: the same facts as the lanes, for who reads rather than sees. */

import type { HeldPlan } from "../../flow/model";
import { personName, timeOf } from "../labels";
import { plan as words } from "../words/plan";
import { doneLabel, namesOf, spanOf, taskHref, taskLabel } from "./labels";
import type { Planning } from "./usePlanning";

export function TaskTable(planning: Planning & { held: HeldPlan }) {
  const { setup, held, standing } = planning;
  const { tasks, service } = held.plan;
  return (
    <>
      <details class="sheet">
        <summary>{words.table}</summary>
        <table class="plan-table">
          <caption class="unseen">{words.tableOf(service)}</caption>
          <thead>
            <tr>
              <th scope="col">{words.columns.time}</th>
              <th scope="col">{words.columns.task}</th>
              <th scope="col">{words.columns.people}</th>
            </tr>
          </thead>
          <tbody>
            {tasks.map((task) => (
              <tr key={task.task}>
                <td>
                  {spanOf(held.plan, setup, task)} {words.state[standing.get(task.task)?.state ?? task.state]}
                </td>
                <th scope="row">
                  <a class="job-line" href={taskHref(task.task)}>
                    <span>{taskLabel(setup, task)}</span>
                  </a>
                </th>
                <td>{namesOf(setup, task.people)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
      <DoneList {...planning} />
    </>
  );
}

function DoneList({ setup, held }: Planning & { held: HeldPlan }) {
  const { done } = held.plan;
  if (!done.length) return null;
  return (
    <details class="sheet">
      <summary>{words.doneTitle(done.length)}</summary>
      <ul class="bulleted">
        {done.map((one) => (
          <li key={`${one.task} ${one.at}`}>
            {doneLabel(setup, one)} · {words.doneBy(personName(setup, one.person), timeOf(setup, one.at))}
          </li>
        ))}
      </ul>
    </details>
  );
}
