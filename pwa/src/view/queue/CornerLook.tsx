/** The way to all that waits for an inspection at one place: one page of checks, one signature. */

import type { EventSetup, Job } from "../../kit/api";
import { zoneLabel } from "../labels";
import { placeHref } from "../place/shown";
import { queue } from "../words/queue";

export const CornerLook = ({ zone, jobs, setup }: { zone: string; jobs: Job[]; setup: EventSetup }) => (
  <a class="button" href={placeHref(zone)}>
    {queue.cornerLook(jobs.length, zoneLabel(setup.car_map, zone))}
  </a>
);
