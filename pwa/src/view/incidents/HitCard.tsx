/** One hit: its reports, what was declared of it, and what can be done with it. */

import type { Hit } from "../../report/incidents";
import type { EffectiveReport } from "../../report/effective";
import { entriesOf } from "../../report/lists";
import { ProblemLine } from "../bits/Problem";
import { SendingMark } from "../bits/SendingMark";
import { usePending } from "../bits/usePending";
import { personName, timeOf } from "../labels";
import { whatSaid, whereSaid } from "../log/said";
import type { CarScreen } from "../screen";
import { driverAt } from "../service/day";
import { incidents as words } from "../words/incidents";
import { placesOf, titleOf } from "./shown";

interface HitCardProps extends CarScreen {
  hit: Hit;
  onTell: () => void;
}

export function HitCard(props: HitCardProps) {
  const { state, setup, car, hit, onTell } = props;
  const title = titleOf(hit, setup.car_map);
  const first = hit.told[0];
  const entries = entriesOf(state.entries);
  const driver = first ? driverAt(entries, car, setup, first.at) : null;
  const facts = [
    placesOf(hit.told),
    first && timeOf(setup, first.at),
    driver && words.drove(personName(setup, driver)),
    words.count(hit.told.length),
  ];
  return (
    <li class="sheet hit">
      <h2>{title}</h2>
      <p class="soft">{facts.filter(Boolean).join(" · ")}</p>
      <Tags hit={hit} />
      {(hit.told.length > 1 || hit.grouping) && (
        <ul class="bulleted">
          {hit.told.map((report) => (
            <ReportLine key={report.report} report={report} setup={setup} />
          ))}
        </ul>
      )}
      {hit.grouping && <Declared {...props} />}
      <Doing {...props} title={title} onTell={onTell} />
    </li>
  );
}

function ReportLine({ report, setup }: { report: EffectiveReport; setup: CarScreen["setup"] }) {
  return (
    <li>
      {whatSaid(report.body, setup.car_map)}, {whereSaid(report.body)}, {personName(setup, report.person)}{" "}
      {timeOf(setup, report.at)}
      {report.withdrawn && `, ${words.withdrawn}`}
    </li>
  );
}

function Tags({ hit }: { hit: Hit }) {
  const said = hit.grouping?.data;
  const tags = [
    said?.property_hit && words.propertyTag,
    (said?.others_involved || said?.others) && words.othersTag,
    said?.injured && words.injuredTag,
  ].filter(Boolean);
  if (!tags.length) return null;
  return (
    <p class="row">
      {tags.map((tag) => (
        <span key={tag} class="tag must">
          {tag}
        </span>
      ))}
    </p>
  );
}

function Declared({ state, setup, hit }: HitCardProps) {
  const grouping = hit.grouping;
  if (!grouping) return null;
  const { property_hit, others, injured, reported_to } = grouping.data;
  const sending = state.entries.find(({ entry }) => entry.id === grouping.id)?.sending;
  const rows = [
    [words.property, property_hit],
    [words.others, others],
    [words.injured, injured],
    [words.reportedTo, reported_to],
  ].filter(([, text]) => text);
  return (
    <>
      {rows.length > 0 && (
        <dl class="declared">
          {rows.map(([name, text]) => (
            <div key={name}>
              <dt class="strong">{name}</dt>
              <dd>{text}</dd>
            </div>
          ))}
        </dl>
      )}
      <p class="row soft">
        {words.grouped(personName(setup, grouping.person), timeOf(setup, grouping.at))}
        {sending && <SendingMark sending={sending} />}
      </p>
    </>
  );
}

function Doing({ actions, hit, title, onTell }: HitCardProps & { title: string }) {
  const { busy, problem, run } = usePending();
  const tell = hit.grouping ? words.change : words.sayMore;
  return (
    <>
      <div class="row even">
        <button type="button" class="button" aria-label={words.ofHit(tell, title)} onClick={onTell}>
          {tell}
        </button>
        {hit.grouping && (
          <button
            type="button"
            class="button"
            disabled={busy}
            aria-label={words.apartOf(title)}
            onClick={() => run(() => actions.takeApart(hit.incident))}
          >
            {words.apart}
          </button>
        )}
      </div>
      <ProblemLine text={problem} />
    </>
  );
}
