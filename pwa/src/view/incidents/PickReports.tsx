/** Which reports are of the hit, each with place, people and time; says where one comes from. */

import type { EventSetup } from "../../kit/api";
import type { Hit } from "../../report/incidents";
import type { EffectiveReport } from "../../report/effective";
import { AnyOf } from "../bits/Chips";
import { personName, timeOf } from "../labels";
import { whatSaid, whereSaid } from "../log/said";
import { incidents as words } from "../words/incidents";
import { placesOf, titleOf } from "./shown";
import { common } from "../words/common";

interface PickReportsProps {
  setup: EventSetup;
  hits: Hit[];
  edited: string | null;
  chosen: string[];
  onChange: (reports: string[]) => void;
}

export function PickReports({ setup, hits, edited, chosen, onChange }: PickReportsProps) {
  const shown = hits.flatMap((hit) => hit.told).filter((one) => !one.withdrawn && one.body.where !== "hand-over");
  const told = shown.filter((one) => chosen.includes(one.report));
  const unseen = chosen.filter((report) => !shown.some((one) => one.report === report)).length;
  const label = (one: EffectiveReport) =>
    `${common.and(whereSaid(one.body), whatSaid(one.body, setup.car_map))} (${personName(setup, one.person)} ${timeOf(setup, one.at)})`;
  const moving = hits.filter(
    (hit) => hit.grouping && hit.incident !== edited && hit.grouping.data.reports.some((one) => chosen.includes(one)),
  );
  return (
    <div class="stack pick-reports">
      <AnyOf
        legend={words.which}
        options={shown.map((one) => ({ value: one.report, label: label(one) }))}
        chosen={chosen}
        onToggle={(report, on) => onChange(on ? [...chosen, report] : chosen.filter((one) => one !== report))}
      />
      {moving.map((hit) => (
        <p key={hit.incident}>{words.moves(titleOf(hit, setup.car_map))}</p>
      ))}
      {unseen > 0 && <p class="soft">{words.unseen(unseen)}</p>}
      {told.length > 0 && <p>{words.places(placesOf(told))}</p>}
    </div>
  );
}
