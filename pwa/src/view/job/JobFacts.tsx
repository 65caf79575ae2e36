/** What is done, how long it takes with how many, what has to be open first, which parts. */

import type { EventSetup, Job } from "../../kit/api";
import { accessName } from "../labels";
import { timeText } from "../place/shown";
import { partName } from "../queue/partName";
import { Facts } from "../ui/Card";
import { Tag } from "../ui/Tag";
import { job as words } from "../words/job";
import { queue } from "../words/queue";

interface FactsProps {
  job: Job;
  setup: EventSetup;
  /** Its inspection failed: what is to be done then is no longer a look of two minutes. */
  has_failed: boolean;
}

export function JobFacts({ job, setup, has_failed }: FactsProps) {
  const { estimate } = job;
  const is_look = job.action === "inspect" && has_failed;
  const facts = [
    is_look
      ? { name: words.repairIt, value: words.repairThen }
      : {
          name: queue.action(job.action),
          value: words.takes(timeText(estimate.minutes_expected), estimate.mechanics),
        },
    ...(estimate.access.length > 0 ? [{ name: queue.access, value: estimate.access.map(accessName).join(", ") }] : []),
    ...(estimate.parts.length > 0 ? [{ name: queue.parts, value: <Parts job={job} setup={setup} /> }] : []),
  ];
  return (
    <div class="ui-card job-facts">
      <Facts facts={facts} />
      {job.no_rate && <p class="soft">{queue.noRate}</p>}
    </div>
  );
}

const Parts = ({ job, setup }: { job: Job; setup: EventSetup }) => (
  <>
    {job.estimate.parts.map(({ part, qty, short }) => (
      <span key={part} class="job-part">
        {queue.part(qty, partName(setup, part))}{" "}
        {short > 0 && <Tag tone="must">{queue.short(Math.max(0, qty - short), short)}</Tag>}
      </span>
    ))}
  </>
);
