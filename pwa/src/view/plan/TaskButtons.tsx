/** Begin a task and say that it is done: work and looks through the job's own page, all else here with one tap. */

import type { PlanTask } from "../../kit/api";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { jobHref } from "../queue/links";
import { NoWork, shutOf } from "../service/NoWork";
import { plan as words } from "../words/plan";
import type { Planning } from "./usePlanning";

export function TaskButtons({ task, ...planning }: Planning & { task: PlanTask }) {
  const { actions, service, standing } = planning;
  const { busy, problem, run } = usePending();
  const { shut } = shutOf(planning);
  const state = standing.get(task.task)?.state ?? "planned";
  const { job } = task;
  if (task.kind === "inspect") {
    return (
      <a class="button main" href={job ? jobHref(job) : "#/queue"}>
        {words.task.lookJob}
      </a>
    );
  }
  const isWork = task.kind === "work" && job !== null;
  const start = () => (isWork ? actions.startJob(job) : actions.startTask(service.service, task.task));
  const finish = async () => {
    await actions.finishTask(service.service, task.task);
    actions.go("/plan");
  };
  return (
    <>
      <NoWork {...planning} />
      <div class="row even">
        {state === "planned" && (
          <button type="button" class="button" disabled={busy || shut} onClick={() => run(start)}>
            {words.task.start}
          </button>
        )}
        {state !== "done" && isWork && (
          <a class="button main" href={jobHref(job)}>
            {words.task.finishJob}
          </a>
        )}
        {state !== "done" && !isWork && (
          <button type="button" class="button main" disabled={busy || shut} onClick={() => run(finish)}>
            {words.task.done}
          </button>
        )}
      </div>
      <ProblemLine text={problem} />
    </>
  );
}
