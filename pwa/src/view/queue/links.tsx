/** The ways from a list to a job's page, and who may see what needs review. */

import type { CarMap } from "../../kit/api";
import type { AppState } from "../../flow/model";
import { jobLabel } from "../labels";

/** A line of a list that leads to a job's page: the whole of it, since a thumb in a glove hits no single word. */
export const JobLine = ({ job, map, says }: { job: string; map: CarMap; says: string }) => (
  <a class="job-line" href={jobHref(job)}>
    <span>{jobLabel(map, job)}</span> {says}
  </a>
);

/** Whether the person who uses this phone is a manager. */
export const isManager = ({ identity }: AppState) => identity?.roles.includes("manager") ?? false;

/** The address of a job's page. */
export const jobHref = (key: string) => `#/job/${key.split("/").map(encodeURIComponent).join("/")}`;
