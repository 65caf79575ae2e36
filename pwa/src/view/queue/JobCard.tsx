/** One job as the crew reads it: what, why, how long, with what. */

import type { EventSetup, Job } from "../../kit/api";
import type { Actions } from "../../flow/model";
import type { Voice } from "../../report/voices";
import { Icon } from "../bits/Icon";
import { Photos } from "../bits/Photo";
import { Voices } from "../bits/Voices";
import { accessName, componentLabel, conditionLabel, jobLabel, zoneLabel } from "../labels";
import { common } from "../words/common";
import { queue } from "../words/queue";
import { jobHref } from "./HoldBar";
import type { Reason } from "./why";

interface JobFacts {
  job: Job;
  setup: EventSetup;
  reasons: Reason[];
  again: boolean;
  actions: Actions;
  /** What was said about it or its reports. */
  voices: Voice[];
}

/** A card of the queue: the whole of it leads to the job's page. */
export function JobCard(props: JobFacts & { fresh: boolean }) {
  const { job, setup, fresh } = props;
  const map = setup.car_map;
  return (
    <li class={fresh ? "job-card fresh" : "job-card"}>
      <h3>
        <a href={jobHref(job.job)} aria-label={queue.open(jobLabel(map, job.job))}>
          {zoneLabel(map, job.zone)} <span>{componentLabel(map, job.component)}</span>
        </a>
      </h3>
      <JobTags {...props} />
      <JobWork job={job} setup={setup} />
      <JobWhy {...props} />
    </li>
  );
}

/** How it stands, in words. */
export function JobTags({ job, again, setup, fresh }: JobFacts & { fresh?: boolean }) {
  const inspection = queue.inspection[job.inspection];
  return (
    <p class="row tags">
      {fresh && <span class="tag must">{queue.fresh}</span>}
      {job.safety_critical && inspection && (
        <span class={job.inspection === "passed" ? "tag" : "tag alarm"}>
          <Icon name={job.inspection === "passed" ? "sent" : "attention"} />
          {inspection}
        </span>
      )}
      {job.must_do && !job.safety_critical && <span class="tag must">{queue.sections.must}</span>}
      {job.state !== "open" && <span class="tag">{queue.state[job.state]}</span>}
      {again && <span class="tag must">{queue.again}</span>}
      {job.two_versions && (
        <span class="tag must">
          <Icon name="two" />
          {common.twoVersions}
        </span>
      )}
      {setup.car_map.components[job.component]?.sealed && <span class="tag alarm">{queue.sealed}</span>}
    </p>
  );
}

/** Action, condition, minutes, people, access and parts. */
export function JobWork({ job, setup }: { job: Job; setup: EventSetup }) {
  const { estimate } = job;
  const unknown = job.condition === "unknown";
  return (
    <div class="work">
      <p>
        <span class="strong">{queue.action(job.action)}</span>
        {!unknown && ` · ${conditionLabel(job.condition).toLowerCase()}`}
        {` · ${queue.minutes(String(Math.round(estimate.minutes_expected * 10) / 10), estimate.mechanics)}`}
      </p>
      {job.no_rate && <p class="soft">{queue.noRate}</p>}
      {estimate.access.length > 0 && (
        <p class="soft">
          {queue.access}: {estimate.access.map(accessName).join(", ")}
        </p>
      )}
      {estimate.parts.map(({ part, qty, short }) => (
        <p key={part}>
          {queue.part(qty, partName(setup, part))}
          {short > 0 && <span class="warn"> · {queue.short(Math.max(0, qty - short), short)}</span>}
        </p>
      ))}
    </div>
  );
}

export const partName = (setup: EventSetup, part: string) =>
  setup.parts.find((one) => one.part === part)?.description || part.replaceAll("-", " ");

/** The reports behind it, with notes and photos; knock-on and retracted findings say so. */
export function JobWhy({ job, setup, reasons, actions, voices }: JobFacts) {
  return (
    <div class="why">
      {job.retracted && <p class="soft">{queue.retracted}</p>}
      {reasons.map((reason) => (
        <div key={reason.id}>
          <p>{reason.says}</p>
          <p class="soft small">{reason.head}</p>
          {reason.note && <p class="note">{reason.note}</p>}
        </div>
      ))}
      <Photos photos={job.photos} photoUrl={actions.photoUrl} />
      <Voices {...{ voices, setup, actions }} />
    </div>
  );
}
