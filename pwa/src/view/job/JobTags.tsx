/** How a job stands, in a word or two each. */

import type { EntryOf, EventSetup, Job } from "../../kit/api";
import { conditionLabel, personName, timeOf } from "../labels";
import type { Tone } from "../ui/Mark";
import { Tag } from "../ui/Tag";
import { common } from "../words/common";
import { places } from "../words/places";
import { queue } from "../words/queue";

interface TagsProps {
  job: Job;
  setup: EventSetup;
  /** Who is on it. */
  starts: EntryOf<"job.started">[];
  /** Who has it by the plan, from when. */
  planned: string | null;
  /** Something came in after it was signed. */
  again: boolean;
}

export function JobTags({ job, setup, starts, planned, again }: TagsProps) {
  return (
    <p class="job-tags">
      {tagsOf(job, setup, again).map(([text, tone]) => (
        <Tag key={text} tone={tone}>
          {text}
        </Tag>
      ))}
      {planned !== null && starts.length === 0 && <Tag tone="act">{planned}</Tag>}
      {starts.map((start) => (
        <Tag key={start.id} tone="act">
          {places.from(personName(setup, start.person), timeOf(setup, start.at))}
        </Tag>
      ))}
    </p>
  );
}

function tagsOf(job: Job, setup: EventSetup, again: boolean): [string, Tone][] {
  const inspection = queue.inspection[job.inspection] ?? "";
  const passed = job.inspection === "passed";
  const found: [string, Tone, boolean][] = [
    [conditionLabel(job.condition), job.safety_critical ? "inspect" : "plain", job.condition !== "unknown"],
    [inspection, passed ? "done" : "hold", job.safety_critical && inspection !== ""],
    [queue.sections.must ?? "", "must", job.must_do && !job.safety_critical],
    [
      queue.state[job.state] ?? "",
      job.state === "finished" || job.state === "accepted" ? "done" : "plain",
      job.state !== "open",
    ],
    [queue.again, "must", again],
    [common.twoVersions, "must", job.two_versions],
    [queue.sealed, "hold", Boolean(setup.car_map.components[job.component]?.sealed)],
  ];
  return found.filter(([, , is]) => is).map(([text, tone]) => [text, tone]);
}
