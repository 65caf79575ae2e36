/** What a line of the cost sheet hangs on: day, driver, incident, its share of access, who worked, the entries behind it. */

import type { CostLine, Costs, EventSetup } from "../../kit/api";
import type { LocalEntry } from "../../flow/model";
import { money } from "../../kit/money";
import { bodyOf } from "../../report/body";
import type { Hit } from "../../report/incidents";
import { isVersion } from "../../report/versions";
import { titleOf } from "../incidents/shown";
import { personName, timeOf } from "../labels";
import { whatSaid, whereSaid } from "../log/said";
import { costs as words } from "../words/costs";
import { reports } from "../words/reports";
import { dayLabel } from "./day";

interface LineMoreProps {
  line: CostLine;
  label: string;
  costs: Costs;
  setup: EventSetup;
  entries: LocalEntry[];
  hits: Hit[];
}

export function LineMore({ line, label, costs, setup, entries, hits }: LineMoreProps) {
  const hit = hits.find((one) => one.incident === line.incident);
  const { estimate, actual } = line.access_share;
  const worked = line.actual?.worked ?? [];
  const facts: [string, string | null | undefined][] = [
    [words.day, line.day && dayLabel(line.day)],
    [words.driver, line.driver && personName(setup, line.driver)],
    [
      words.shareOfAccess,
      Number(estimate) || Number(actual)
        ? words.shared(money(estimate, costs.currency), money(actual, costs.currency))
        : null,
    ],
    [
      words.workedBy,
      worked.map(({ person, minutes }) => words.worked(personName(setup, person), String(minutes))).join(", "),
    ],
  ];
  return (
    <details class="more">
      <summary>
        {words.lineMore}
        <span class="unseen">{words.about(label)}</span>
      </summary>
      <dl>
        {facts
          .filter(([, text]) => text)
          .map(([name, text]) => (
            <div key={name} class="fact">
              <dt>{name}</dt>
              <dd>{text}</dd>
            </div>
          ))}
        {hit && (
          <div class="fact">
            <dt>{words.hit}</dt>
            <dd>
              <a class="behind" href="#/incidents">
                {titleOf(hit, setup.car_map)}
              </a>
            </dd>
          </div>
        )}
      </dl>
      <Behind line={line} setup={setup} entries={entries} />
    </details>
  );
}

function Behind({ line, setup, entries }: Pick<LineMoreProps, "line" | "setup" | "entries">) {
  const held = entries.filter(({ entry }) => line.entries.includes(entry.id)).map(({ entry }) => entry);
  const missing = line.entries.length - held.length;
  return (
    <>
      <p class="soft">{words.behind}</p>
      <ul>
        {held.map((entry) => {
          const head = `${reports.kind[entry.kind] ?? entry.kind}, ${personName(setup, entry.person)} ${timeOf(setup, entry.at)}`;
          if (!isVersion(entry) || !entry.subject) return <li key={entry.id}>{head}</li>;
          const body = bodyOf(entry);
          return (
            <li key={entry.id}>
              <a class="behind" href={`#/log/${encodeURIComponent(entry.subject)}`}>
                {head}: {whatSaid(body, setup.car_map)}, {whereSaid(body)}
              </a>
            </li>
          );
        })}
        {missing > 0 && <li class="soft">{words.notHere(missing)}</li>}
      </ul>
    </>
  );
}
