/** On the road where the event forbids advice: no queue, no hold, only the check card that was aboard at the start. */

import type { EventSetup } from "../../kit/api";
import { jobLabel, stopLabel, symptomLabel } from "../labels";
import { queue } from "../words/queue";

export function RoadScreen({ setup }: { setup: EventSetup }) {
  const map = setup.car_map;
  return (
    <div class="stack">
      <h1>{queue.roadTitle}</h1>
      <p>{queue.road}</p>
      <h2>{queue.card}</h2>
      <p class="soft">{queue.cardNote}</p>
      {Object.entries(map.symptoms).map(([code, symptom]) => (
        <details key={code} class="sheet">
          <summary>{symptomLabel(map, code)}</summary>
          {stopLabel(map, code) && <p class="warn">{stopLabel(map, code)}</p>}
          <ol class="bulleted">
            {symptom.checks.map((key) => (
              <li key={key}>{jobLabel(map, key)}</li>
            ))}
          </ol>
        </details>
      ))}
    </div>
  );
}
