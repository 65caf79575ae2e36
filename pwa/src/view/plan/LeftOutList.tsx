/** What is not in the plan: why, who may do it later, with what put in the car; one tap leaves it so. */

import type { HeldPlan } from "../../flow/model";
import type { Job, LeftOut } from "../../kit/api";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { jobHref } from "../queue/links";
import { plan as words } from "../words/plan";
import { groupLabel } from "./labels";
import { LeftOutText } from "./LeftOutText";
import type { Planning } from "./usePlanning";

export function LeftOutList(planning: Planning & { held: HeldPlan }) {
  const { left_out } = planning.held.plan;
  const little = left_out.filter((one) => one.why === "value");
  return (
    <section class="stack" aria-labelledby="out-title">
      <h2 id="out-title">
        {words.out.title} ({left_out.length})
      </h2>
      {left_out.length === 0 && <p>{words.out.none}</p>}
      <Cards {...planning} some={left_out.filter((one) => one.why !== "value")} />
      {little.length > 0 && (
        <details>
          <summary>{words.out.little(little.length)}</summary>
          <Cards {...planning} some={little} />
        </details>
      )}
    </section>
  );
}

function Cards({ some, ...planning }: Planning & { some: LeftOut[] }) {
  if (!some.length) return null;
  return (
    <ul class="jobs">
      {some.map((one) => (
        <Left key={one.job} {...planning} one={one} />
      ))}
    </ul>
  );
}

function Left({ one, ...planning }: Planning & { one: LeftOut }) {
  const { state, setup } = planning;
  const job = state.queue?.answer.jobs.find((other) => other.job === one.job);
  return (
    <li class="job-card">
      <h3>
        {job ? (
          <a href={jobHref(one.job)}>
            <span>{groupLabel(setup, one.job)}</span>
          </a>
        ) : (
          groupLabel(setup, one.job)
        )}
      </h3>
      <LeftOutText setup={setup} one={one} chance />
      {job && <Leave {...planning} one={one} job={job} />}
    </li>
  );
}

function Leave({ actions, one, job }: Planning & { one: LeftOut; job: Job }) {
  const { busy, problem, run } = usePending();
  const { to } = one;
  if (job.state === "deferred") return <p class="tag">{words.out.deferred}</p>;
  if (to === "after" || job.group === "cage") return null;
  const reason = words.out.reason[one.why] ?? words.out.noTime;
  return (
    <>
      {job.safety_critical && <p class="soft">{words.out.holds}</p>}
      <button
        type="button"
        class="button"
        disabled={busy}
        onClick={() => run(() => actions.deferJob(one.job, to, reason))}
      >
        {words.out.defer[to]}
      </button>
      <ProblemLine text={problem} />
    </>
  );
}
