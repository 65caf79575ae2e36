/** Entries of this phone for the car that the server has not put into the queue yet. */

import type { EventSetup } from "../../kit/api";
import type { AppState } from "../../flow/model";
import { bodyOf } from "../../report/body";
import { isVersion } from "../../report/versions";
import { SendingMark } from "../bits/SendingMark";
import { jobLabel, timeOf } from "../labels";
import { whatSaid } from "../log/said";
import { queue } from "../words/queue";
import { reports } from "../words/reports";

export function Unsent({ state, setup, car }: { state: AppState; setup: EventSetup; car: string }) {
  const unsent = state.entries.filter((held) => held.mine && held.sending !== "sent" && held.entry.car === car);
  if (!unsent.length) return null;
  const counted = state.queue_from === "phone";
  return (
    <details class="sheet unsent">
      <summary>{counted ? queue.unsentOwnTitle(unsent.length) : queue.unsentTitle(unsent.length)}</summary>
      <p class="soft">{counted ? queue.unsentOwnNote : queue.unsentNote}</p>
      <ul class="stack">
        {unsent.map(({ entry, sending }) => (
          <li key={entry.id}>
            <p>
              {reports.kind[entry.kind] ?? entry.kind} {timeOf(setup, entry.at)}:{" "}
              {isVersion(entry)
                ? whatSaid(bodyOf(entry), setup.car_map)
                : entry.subject?.includes("/")
                  ? jobLabel(setup.car_map, entry.subject)
                  : ""}
            </p>
            <SendingMark sending={sending} />
          </li>
        ))}
      </ul>
    </details>
  );
}
