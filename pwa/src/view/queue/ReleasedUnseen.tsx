/** Findings with which the car left a service before anybody knew of them: one line, and all of it when it is opened. */

import type { EventSetup, Queue } from "../../kit/api";
import { Icon } from "../ui/Icon";
import { queue } from "../words/queue";
import { JobLine } from "./links";

export function ReleasedUnseen({ answer, setup }: { answer: Queue; setup: EventSetup }) {
  const { released_unseen: unseen } = answer;
  if (!unseen.length) return null;
  return (
    <details class="unseen-left">
      <summary>
        <Icon name="caution" size={20} />
        <h2>{queue.unseenTitle}</h2>
        <span>{unseen.length}</span>
      </summary>
      <p>{queue.unseenNote}</p>
      <ul>
        {unseen.map((one) => (
          <li key={`${one.released} ${one.job}`}>
            <JobLine job={one.job} map={setup.car_map} says={queue.unseenAt(one.service)} />
          </li>
        ))}
      </ul>
    </details>
  );
}
