/** One job as a row of the queue: what, how bad, where it happened, how long, who has it. */

import type { Entry, EventSetup, Job } from "../../kit/api";
import { startsOn } from "../job/history";
import { componentLabel, conditionLabel, jobLabel, personName } from "../labels";
import { timeText } from "../place/shown";
import { Row } from "../ui/Row";
import { Tag } from "../ui/Tag";
import type { Tone } from "../ui/Mark";
import { queue } from "../words/queue";
import { jobHref } from "./links";
import { type Section, sectionOf } from "./sections";

export interface JobRowProps {
  job: Job;
  setup: EventSetup;
  /** Where the first report behind it happened. */
  where: string | undefined;
  /** Somebody signed it off before, and something is open on it again. */
  again: boolean;
  fresh: boolean;
  /** The car's entries that count: who is on it. */
  valid: Entry[];
  /** Who has it by the plan of the service to come: nobody where that leaves it out; null without a plan. */
  planned: readonly string[] | null;
  /** It is shown beside the list. */
  current: boolean;
  /** Before the part, where the list is not grouped by place. */
  place?: string;
}

const TONES: Record<Section, Tone> = { inspect: "inspect", must: "must", worth: "plain", done: "done" };

export function JobRow(props: JobRowProps) {
  const { job, setup, place, current } = props;
  const map = setup.car_map;
  const part = componentLabel(map, job.component);
  return (
    <Row
      label={queue.open(jobLabel(map, job.job))}
      title={place === undefined ? part : queue.partAt(part, place)}
      meta={<Meta {...props} />}
      figure={timeText(job.estimate.minutes_expected)}
      under={underOf(props)}
      tone={TONES[sectionOf(job)]}
      href={jobHref(job.job)}
      current={current}
    />
  );
}

function Meta({ job, setup, where, again, fresh }: JobRowProps) {
  const sealed = setup.car_map.components[job.component]?.sealed;
  const short = job.estimate.parts.reduce((sum, part) => sum + part.short, 0);
  return (
    <>
      {[
        howBad(job),
        where,
        job.two_versions && queue.twoVersions,
        sealed && queue.sealedShort,
        job.photos.length > 0 && queue.photo,
      ]
        .filter(Boolean)
        .join(" · ")}
      {job.inspection === "failed" && <Tag tone="hold">{queue.inspection.failed}</Tag>}
      {fresh && <Tag tone="must">{queue.fresh}</Tag>}
      {again && <Tag tone="must">{queue.againShort}</Tag>}
      {short > 0 && <Tag tone="hold">{queue.shortTag(short)}</Tag>}
    </>
  );
}

function howBad(job: Job): string {
  if (job.retracted) return queue.retractedShort;
  if (job.knock_on) return queue.knockOn;
  return job.condition === "unknown" ? queue.notSure : conditionLabel(job.condition).toLowerCase();
}

const namesIn = (setup: EventSetup, people: readonly string[]) =>
  people.map((one) => personName(setup, one)).join(", ");

/** Who is on it, else how it stands where that is more than open, else who has it by the plan, else what is to be done. */
function underOf({ job, setup, valid, planned }: JobRowProps): string {
  if (job.state === "started") {
    const people = [...new Set(startsOn(valid, job.job).map((one) => one.person))];
    if (people.length > 0) return namesIn(setup, people);
  }
  if (job.inspection === "needed" && (job.state === "finished" || job.state === "accepted")) return queue.toInspect;
  if (job.state !== "open") return queue.stateShort[job.state] ?? job.state;
  if (planned?.length === 0) return queue.notPlanned;
  return planned ? namesIn(setup, planned) : queue.action(job.action).toLowerCase();
}
