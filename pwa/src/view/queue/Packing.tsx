/** What to take along to a service without the van; opened, it alone is printed. */

import type { EventSetup, Job } from "../../kit/api";
import { packingList } from "../../queue/packing";
import { accessName, jobLabel } from "../labels";
import { queue } from "../words/queue";
import { partName } from "./partName";
import "./packing.css";

export function Packing({ jobs, setup, car }: { jobs: Job[]; setup: EventSetup; car: string }) {
  const { parts, access, without_rate } = packingList(jobs);
  return (
    <details class="sheet packing">
      <summary>{queue.packing.title}</summary>
      <p class="soft">{queue.packing.what(car)}</p>
      <h2>{queue.parts}</h2>
      {parts.length === 0 && <p>{queue.packing.noParts}</p>}
      <ul class="bulleted">
        {parts.map(({ part, qty, short }) => (
          <li key={part}>
            {queue.part(qty, partName(setup, part))}
            {short > 0 && <span class="warn"> · {queue.packing.short(short)}</span>}
          </li>
        ))}
      </ul>
      {access.length > 0 && (
        <>
          <h2>{queue.packing.tools}</h2>
          <ul class="bulleted">
            {access.map((step) => (
              <li key={step}>{accessName(step)}</li>
            ))}
          </ul>
        </>
      )}
      {without_rate.length > 0 && (
        <p>{queue.packing.withoutRate(without_rate.map((key) => jobLabel(setup.car_map, key)).join(", "))}</p>
      )}
      <button type="button" class="button" onClick={() => print()}>
        {queue.packing.print}
      </button>
    </details>
  );
}
