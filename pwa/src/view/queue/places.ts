/** The queue grouped by place: crews think of corners. Pure. */

import type { Job } from "../../kit/api";
import { grouped } from "../../kit/grouped";
import { sectionOf } from "./sections";

/** What is open at one place, in the queue's order. */
export interface PlaceJobs {
  zone: string;
  jobs: Job[];
  /** Mechanic-free minutes of the jobs, as expected, added up. */
  minutes: number;
  tone: "hold" | "must" | "plain";
}

/** Return the places of the open jobs: each where the queue has its first job. */
export function placesOf(jobs: readonly Job[]): PlaceJobs[] {
  const open = jobs.filter((job) => sectionOf(job) !== "done");
  return [...grouped(open, (job) => job.zone)].map(([zone, here]) => ({
    zone,
    jobs: here,
    minutes: here.reduce((sum, { estimate }) => sum + estimate.minutes_expected, 0),
    tone: toneOf(here),
  }));
}

function toneOf(jobs: Job[]): PlaceJobs["tone"] {
  const sections = jobs.map(sectionOf);
  return sections.includes("inspect") ? "hold" : sections.includes("must") ? "must" : "plain";
}
