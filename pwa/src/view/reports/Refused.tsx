/** Entries that the server did not take: the reason, and what to do. */

import type { EventSetup } from "../../kit/api";
import type { LocalEntry } from "../../flow/model";
import { bodyOf } from "../../report/body";
import { isVersion } from "../../report/versions";
import { Icon } from "../bits/Icon";
import { whatSaid } from "../log/said";
import { timeOf } from "../labels";
import { reports as words } from "../words/reports";

/** The code is the last part of the problem's address. */
const codeOf = (type: string) => type.split("/").at(-1) ?? "";

export function Refused({ entries, setup }: { entries: LocalEntry[]; setup: EventSetup }) {
  if (!entries.length) return null;
  return (
    <section class="sheet refused" aria-labelledby="refused-title">
      <h2 id="refused-title">
        <Icon name="attention" /> {words.refusedTitle} ({entries.length})
      </h2>
      <p>{words.refusedDo}</p>
      <ul class="stack">
        {entries.map(({ entry, problem }) => (
          <li key={entry.id}>
            <p class="strong">
              {words.kind[entry.kind] ?? entry.kind} {timeOf(setup, entry.at)}
              {isVersion(entry) && `: ${whatSaid(bodyOf(entry), setup.car_map)}`}
            </p>
            {problem && (
              <>
                <p>{words.refusedWhat(problem.title)}</p>
                {problem.detail && <p class="soft">{problem.detail}</p>}
                <p>{words.fix[codeOf(problem.type)]}</p>
              </>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
