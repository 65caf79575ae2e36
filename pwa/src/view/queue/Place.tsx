/** One place of the queue: its jobs under a header that leads there, and one inspection of all that waits at it. */

import { zoneLabel } from "../labels";
import { inspectHref, placeHref, timeText } from "../place/shown";
import type { CarScreen } from "../screen";
import { Button } from "../ui/Button";
import { List, SectionHeader } from "../ui/Row";
import { queue } from "../words/queue";
import type { Facts } from "./facts";
import { JobRow } from "./JobRow";
import type { PlaceJobs } from "./places";
import { isPlainLook } from "./sections";

interface PlaceProps extends Pick<CarScreen, "setup" | "state"> {
  place: PlaceJobs;
  facts: Facts;
  /** The job that is shown beside the list. */
  current: string | null;
}

export function Place({ place, facts, current, setup, state }: PlaceProps) {
  const { zone, jobs, minutes, tone } = place;
  const name = zoneLabel(setup.car_map, zone);
  const together = jobs.filter(isPlainLook).length;
  const signs = state.identity?.roles.includes("inspector") && together > 1;
  const id = `place-${zone}`;
  return (
    <section aria-labelledby={id}>
      <SectionHeader
        id={id}
        title={name}
        tone={tone}
        href={placeHref(zone)}
        meta={queue.placeMeta(jobs.length, timeText(minutes))}
        action={
          signs && (
            <Button kind="text" label={queue.cornerLook(together, name)} href={inspectHref(zone)}>
              {queue.cornerShort}
            </Button>
          )
        }
      />
      <List labelledBy={id}>
        {jobs.map((job) => (
          <JobRow key={job.job} {...facts.of(job)} current={job.job === current} />
        ))}
      </List>
    </section>
  );
}
