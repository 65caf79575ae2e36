/** What of the service is done already, by the plan and by what was said since. */

import type { HeldPlan } from "../../flow/model";
import { personName, timeOf } from "../labels";
import { plan as words } from "../words/plan";
import { doneLabel } from "./labels";
import type { Planning } from "./usePlanning";

export function DoneList({ setup, held, standing }: Planning & { held: HeldPlan }) {
  const since = held.plan.tasks.flatMap(({ task, job }) => {
    const now = standing.get(task);
    return now?.state === "done" && now.by && now.at ? [{ task, job, at: now.at, person: now.by }] : [];
  });
  const done = [...held.plan.done, ...since];
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
