/** All the looks of one place, signed together without leaving the queue. */

import { useOpen } from "../bits/useOpen";
import type { Job } from "../../kit/api";
import { counted } from "../job/history";
import { LookForm } from "../job/LookForm";
import "../job/job.css";
import { zoneLabel } from "../labels";
import type { CarScreen } from "../screen";
import { queue } from "../words/queue";

export function CornerLook(props: CarScreen & { zone: string; jobs: Job[] }) {
  const { state, setup, car, zone, jobs } = props;
  const look = useOpen();
  const [first] = jobs;
  const valid = () =>
    counted(
      state.entries.map((held) => held.entry),
      car,
      setup,
    );
  return (
    <>
      <button type="button" class="button" aria-expanded={look.isOpen} onClick={look.toggle}>
        {queue.cornerLook(jobs.length, zoneLabel(setup.car_map, zone))}
      </button>
      {look.isOpen && first && <LookForm {...props} job={first} valid={valid()} onDone={look.close} />}
    </>
  );
}
