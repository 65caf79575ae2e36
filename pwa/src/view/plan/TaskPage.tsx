/** One task of the plan: what, when, by whom, what to lay out and to mind; begin it, end it. */

import type { EventSetup, Job, PlanTask } from "../../kit/api";
import type { ShownPlan } from "../../report/plan";
import type { HeldPlan } from "../../flow/model";
import { cautionsOf } from "../job/cautions";
import "../job/job.css";
import { personName, timeOf, zoneLabel } from "../labels";
import { partName } from "../queue/partName";
import { job as jobWords } from "../words/job";
import { plan as words } from "../words/plan";
import { queue } from "../words/queue";
import { useWayBack } from "./backTo";
import { doneLabel, namesOf, spanOf, taskLabel } from "./labels";
import { TaskButtons } from "./TaskButtons";
import type { Planning } from "./usePlanning";

export function TaskPage({ name, ...planning }: Planning & { name: string }) {
  useWayBack(name);
  const task = planning.held?.plan.tasks.find((one) => one.task === name);
  const done = planning.held?.plan.done.find((one) => one.task === name);
  return (
    <div class="stack">
      <a class="button quiet back" href="#/plan">
        {words.back}
      </a>
      {task && planning.held ? (
        <Page {...planning} held={planning.held} task={task} />
      ) : (
        <>
          <h1>{done ? doneLabel(planning.setup, done) : words.title}</h1>
          <p>{done ? doneSaid(planning.setup, done) : words.task.notThere}</p>
        </>
      )}
    </div>
  );
}

const doneSaid = (setup: EventSetup, { person, at }: ShownPlan["done"][number]) =>
  words.task.doneByLine(personName(setup, person), timeOf(setup, at));

function Page(planning: Planning & { held: HeldPlan; task: PlanTask }) {
  const { state, setup, held, task } = planning;
  const job = state.queue?.answer.jobs.find((one) => one.job === task.job);
  const where = task.zone ? zoneLabel(setup.car_map, task.zone) : words.task.besideCar;
  return (
    <>
      <h1>{taskLabel(setup, task)}</h1>
      <Mind job={job} step={task.step} />
      <section class="sheet" aria-label={words.task.when}>
        <p class="large">
          {spanOf(held.plan, setup, task)} · {words.kind[task.kind]}
        </p>
        <p>
          <span class="strong">{namesOf(setup, task.people)}</span> · {where}
        </p>
        {task.critical > 0 && <p class="soft">{words.task.critical(Math.round(task.critical * 100))}</p>}
        {task.kind === "work" && job && job.estimate.parts.length > 0 && (
          <p>
            {words.task.parts}:{" "}
            {job.estimate.parts.map(({ part, qty }) => queue.part(qty, partName(setup, part))).join(", ")}
          </p>
        )}
        <Stands {...planning} />
      </section>
      {task.kind === "inspect" && <p>{words.task.lookOwn}</p>}
      <TaskButtons {...planning} />
    </>
  );
}

function Stands({ setup, standing, task }: Planning & { task: PlanTask }) {
  const now = standing.get(task.task);
  if (!now?.by || !now.at) return <p>{words.state[now?.state ?? task.state]}</p>;
  const [name, time] = [personName(setup, now.by), timeOf(setup, now.at)];
  return <p>{now.state === "done" ? words.task.doneByLine(name, time) : words.task.begunBy(name, time)}</p>;
}

/** The usual cautions of the job, or of getting at it. */
function Mind({ job, step }: { job: Job | undefined; step: string | null }) {
  const named = job ? cautionsOf(job) : step === null ? [] : ["stands", ...(step.startsWith("wheel") ? ["wheel"] : [])];
  if (!named.length) return null;
  return (
    <section class="cautions" aria-labelledby="mind-title">
      <h2 id="mind-title">{jobWords.cautions}</h2>
      <ul class="bulleted">
        {named.map((name) => (
          <li key={name}>{jobWords.caution[name]}</li>
        ))}
      </ul>
    </section>
  );
}
