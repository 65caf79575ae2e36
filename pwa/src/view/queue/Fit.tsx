/** Does it fit: how much of the open work must be done, what else the plan holds, what it leaves for later. */

import { queue } from "../words/queue";
import type { Share } from "./shares";

/** As wide as its minutes; a minute at least, so that no part is too thin to see. */
export function Fit({ shares }: { shares: Share[] }) {
  return (
    <div class="queue-fit">
      <span class="queue-fit-bar" aria-hidden="true">
        {shares.map(({ part, minutes }) => (
          <span key={part} class={`is-${part}`} style={{ flexGrow: Math.max(1, minutes) }} />
        ))}
      </span>
      <ul>
        {shares.map(({ part, jobs }) => (
          <li key={part} class={`is-${part}`}>
            {queue.fit[part](jobs)}
          </li>
        ))}
      </ul>
    </div>
  );
}
