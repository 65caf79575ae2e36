/** The plan on paper, for the tent pole: A4, black only, boxes to tick; "tools counted" is always its last line. */

import type { HeldPlan } from "../../flow/model";
import type { Job, PlanTask } from "../../kit/api";
import { clockIn, msOf } from "../../kit/time";
import { jobsOf, peopleOf, tasksOf } from "../../report/plan";
import { clockOnDay, heardAt, jobLabel, personName } from "../labels";
import { partName } from "../queue/partName";
import { plan as words } from "../words/plan";
import { queue } from "../words/queue";
import { namesOf, noneOf, spanOf, taskLabel, thingLabel } from "./labels";
import "./sheet.css";
import type { Planning } from "./usePlanning";
import { common } from "../words/common";

type OnPaper = Planning & { held: HeldPlan };

export function Sheet(planning: Planning) {
  const { held } = planning;
  return (
    <div class="stack">
      <a class="button quiet back" href="#/plan">
        {words.back}
      </a>
      {held ? (
        <>
          <button type="button" class="button main" onClick={() => print()}>
            {words.sheet.print}
          </button>
          <Paper {...planning} held={held} />
        </>
      ) : (
        <>
          <h1>{titleOf(planning)}</h1>
          <p>{noneOf(planning)}</p>
        </>
      )}
    </div>
  );
}

function titleOf({ state, setup, car, service, overnight }: Planning): string {
  if (overnight) return words.sheet.titleOvernight(car, clockOnDay(setup, overnight.by_ms, state.now));
  return words.sheet.title(car, service.service);
}

function Paper(planning: OnPaper) {
  const { state, setup, held, change } = planning;
  const { plan } = held;
  const due_ms = planning.current?.due_out_ms ?? (plan.due_out === null ? null : msOf(plan.due_out));
  return (
    <article class="paper">
      <h1>{titleOf(planning)}</h1>
      <p>
        {due_ms !== null && <b>{words.sheet.due(clockIn(setup.timezone, due_ms))} · </b>}
        {words.workedOut(heardAt(setup, held.heard_at, state.now))} · {plan.proven ? words.proven : words.notProven}
        {change !== "none" && <b> {words.sheet.stale}</b>}
      </p>
      <p class="paper-mind">
        <b>{words.sheet.stands}</b> {words.sheet.rules}
      </p>
      {peopleOf(plan, null).map((person) => (
        <PersonList key={person} {...planning} person={person} />
      ))}
      <LeftOut {...planning} />
      <Looks {...planning} />
      <p class="paper-last">
        <Box /> {words.sheet.tools}
      </p>
    </article>
  );
}

const Box = () => <span class="paper-box" role="img" aria-label={words.sheet.box} />;

function PersonList({ person, ...planning }: OnPaper & { person: string }) {
  const { setup, held } = planning;
  const tasks = tasksOf(held.plan, person);
  return (
    <section>
      <h2>{personName(setup, person)}</h2>
      {tasks.length === 0 ? (
        <p>{words.sheet.nothing}</p>
      ) : (
        <table>
          <caption class="unseen">{words.lane(personName(setup, person))}</caption>
          <tbody>
            {tasks.map((task) => (
              <Row key={task.task} {...planning} task={task} person={person} />
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

function Row({ state, setup, held, task, person }: OnPaper & { task: PlanTask; person: string }) {
  const job = state.queue?.answer.jobs.find((one) => one.job === task.job);
  const parts = task.kind === "work" ? (job?.estimate.parts ?? []) : [];
  const others = task.people.filter((one) => one !== person);
  return (
    <tr>
      <td class="paper-tick">
        <Box />
      </td>
      <td class="paper-time">{spanOf(held.plan, setup, task)}</td>
      <th scope="row">
        {taskLabel(setup, task)}
        {others.length > 0 && <span> ({namesOf(setup, others)})</span>}
        {parts.length > 0 && (
          <span class="paper-parts">
            {common.and(
              words.sheet.parts,
              parts.map(({ part, qty }) => queue.part(qty, partName(setup, part))).join(", "),
            )}
          </span>
        )}
      </th>
    </tr>
  );
}

function LeftOut({ setup, held }: OnPaper) {
  const { left_out } = held.plan;
  if (!left_out.length) return null;
  return (
    <section>
      <h2>{words.sheet.leftOut}</h2>
      <ul class="paper-list">
        {left_out.map((one) => (
          <li key={one.job}>
            {common.and(thingLabel(setup, one.job), (words.out.why[one.why] ?? one.reason).toLowerCase())},{" "}
            {(words.out.to[one.to] ?? "").toLowerCase()}
            {one.put_in_car.length > 0 &&
              `${words.also}${common.and(
                words.out.aboard.toLowerCase(),
                one.put_in_car.map(({ part, qty }) => queue.part(qty, partName(setup, part))).join(", "),
              )}`}
          </li>
        ))}
      </ul>
    </section>
  );
}

const toLook = (job: Job) => job.safety_critical && job.inspection !== "passed";

function Looks({ state, setup, held }: OnPaper) {
  const planned = held.plan.tasks.filter((task) => task.kind === "inspect");
  const whenOf = (job: string) => planned.find((task) => jobsOf(task).includes(job));
  const jobs = state.queue?.answer.jobs.filter(toLook).map((job) => job.job) ?? planned.flatMap(jobsOf);
  return (
    <section>
      <h2>{words.sheet.looks}</h2>
      {jobs.length === 0 ? (
        <p>{words.sheet.looksNone}</p>
      ) : (
        <table>
          <caption class="unseen">{words.sheet.looks}</caption>
          <tbody>
            {jobs.map((key) => {
              const task = whenOf(key);
              return (
                <tr key={key}>
                  <td class="paper-time">{task ? spanOf(held.plan, setup, task) : ""}</td>
                  <th scope="row">
                    {jobLabel(setup.car_map, key)}
                    {task && <span> ({namesOf(setup, task.people)})</span>}
                  </th>
                  <td class="paper-by">
                    {words.sheet.checkedBy} <span class="paper-initials" />
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
    </section>
  );
}
