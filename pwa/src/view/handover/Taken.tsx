/** What came in, in sentences. */

import type { TakenIn } from "../../report/handed";
import { Icon } from "../bits/Icon";
import { takenWords } from "../words/handover";

export function Taken({ taken }: { taken: TakenIn }) {
  return (
    <ul class="stack" aria-live="polite">
      {takenWords(taken).map((line, place) => (
        <li key={line} class="status-line">
          <Icon name={place === 0 ? "sent" : "waiting"} />
          <span>{line}</span>
        </li>
      ))}
    </ul>
  );
}
