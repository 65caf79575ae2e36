/** Findings with which the car left a service before anybody knew of them. */

import type { EventSetup, Queue } from "../../kit/api";
import { queue } from "../words/queue";
import { JobLine } from "./HoldBar";

export function ReleasedUnseen({ answer, setup }: { answer: Queue; setup: EventSetup }) {
  if (!answer.released_unseen.length) return null;
  return (
    <section class="sheet unseen-left" aria-labelledby="unseen-title">
      <h2 id="unseen-title">{queue.unseenTitle}</h2>
      <p>{queue.unseenNote}</p>
      <ul>
        {answer.released_unseen.map((one) => (
          <li key={`${one.released} ${one.job}`}>
            <JobLine job={one.job} map={setup.car_map} says={queue.unseenAt(one.service)} />
          </li>
        ))}
      </ul>
    </section>
  );
}
