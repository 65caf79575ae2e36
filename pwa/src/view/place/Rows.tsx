/** The rows of a place: a job, all that is inspected together, a part of the cage, a check on the ground. */

import type { Job } from "../../kit/api";
import { failedChecks } from "../../report/at_place";
import { checksOf } from "../../report/looks";
import { workedOn } from "../../report/passing";
import { componentLabel, conditionLabel, personName, timeOf } from "../labels";
import { jobHref } from "../queue/links";
import { startsOn } from "../job/history";
import type { Tone } from "../ui/Mark";
import { Row } from "../ui/Row";
import { Tag } from "../ui/Tag";
import { looks } from "../words/looks";
import { places as words } from "../words/places";
import { queue } from "../words/queue";
import type { PlacePart } from "./PlacePage";
import { inspectHref, inspectorsOf, namesText, partsText, timeText } from "./shown";

type JobPart = PlacePart & { job: Job };

/** A job: what it is, how bad, what is done, whether the parts are there, who is on it. */
export function JobRow({ setup, valid, job }: JobPart) {
  const [start] = startsOn(valid, job.job);
  return (
    <Row
      title={componentLabel(setup.car_map, job.component)}
      tone={toneOf(job)}
      meta={<Meta job={job} valid={valid} />}
      figure={timeText(job.estimate.minutes_expected)}
      under={start ? words.from(personName(setup, start.person), timeOf(setup, start.at)) : undefined}
      href={jobHref(job.job)}
    />
  );
}

function Meta({ job, valid }: Pick<JobPart, "job" | "valid">) {
  const failed = failedChecks(job, valid);
  const short = job.estimate.parts.reduce((sum, part) => sum + part.short, 0);
  const how = job.condition === "unknown" ? [] : [conditionLabel(job.condition).toLowerCase()];
  const text = failed ? failedText(failed.checks) : [...how, queue.action(job.action).toLowerCase()].join(" · ");
  return (
    <>
      {text} {job.state === "deferred" && <Tag>{queue.state.deferred}</Tag>}
      {short > 0 && <Tag tone="must">{words.partsShort(short)}</Tag>}
      {short === 0 && job.estimate.parts.length > 0 && <Tag tone="done">{words.partsHere}</Tag>}
    </>
  );
}

/** What failed, as the inspector answered. */
export const failedText = (checks: string[]) =>
  checks.length === 0 ? words.failedPlain : words.failed(checks.map(looks.named).join("; "));

function toneOf(job: Job): Tone {
  if (job.state === "finished" || job.state === "accepted") return "done";
  if (job.safety_critical) return "inspect";
  return job.must_do ? "must" : "plain";
}

/** One row for the whole inspection: its parts, how many checks, who may not sign it. */
export function InspectRow({ setup, entries, zone, here, jobs }: PlacePart & { jobs: Job[] }) {
  const checks = checksOf(jobs, setup).length;
  const not = inspectorsOf(setup).filter((person) => jobs.some((job) => workedOn(job, entries, person)));
  const later = here.repair.filter((job) => job.safety_critical);
  const meta = [
    words.checks(checks),
    not.length > 0 ? words.not(namesText(not, setup)) : "",
    later.length > 0 ? words.afterRepair(partsText(later, setup)) : "",
  ];
  return (
    <Row
      title={partsText(jobs, setup)}
      tone="inspect"
      meta={meta.filter(Boolean).join(" · ")}
      href={inspectHref(zone)}
    />
  );
}

export const CageRow = ({ setup, job }: JobPart) => (
  <Row
    title={componentLabel(setup.car_map, job.component)}
    tone="inspect"
    meta={conditionLabel(job.condition)}
    href={jobHref(job.job)}
  />
);

export const CheckLine = ({ title }: { title: string }) => <Row title={title} tone="plain" />;
