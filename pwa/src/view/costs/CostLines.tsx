/** The lines of the cost sheet: estimate beside actual, and folded what each hangs on. */

import { useState } from "preact/hooks";
import type { CostLine, Costs, EventSetup } from "../../kit/api";
import type { LocalEntry } from "../../flow/model";
import { money } from "../../kit/money";
import type { Hit } from "../../report/incidents";
import { accessName, jobLabel, zoneLabel } from "../labels";
import { partName } from "../queue/partName";
import { useWide } from "../shell/useWide";
import { type Column, Table } from "../ui/Table";
import { common } from "../words/common";
import { costs as words } from "../words/costs";
import { queue } from "../words/queue";
import { LineMore } from "./LineMore";

interface CostLinesProps {
  costs: Costs;
  setup: EventSetup;
  entries: LocalEntry[];
  hits: Hit[];
}

/** A table with the chosen line beside it where there is room; else one line under the other. */
export function CostLines(props: CostLinesProps) {
  const { costs } = props;
  if (useWide()) return <WideLines {...props} />;
  return (
    <section class="sheet" aria-labelledby="lines-title">
      <h2 id="lines-title">{words.lines(costs.lines.length)}</h2>
      <ul class="lines">
        {costs.lines.map((line) => (
          <Line key={line.line + line.kind} {...props} line={line} />
        ))}
      </ul>
    </section>
  );
}

function WideLines(props: CostLinesProps) {
  const { costs, setup } = props;
  const keyOf = (line: CostLine) => line.line + line.kind;
  const [chosen, setChosen] = useState<string | null>(null);
  const line = costs.lines.find((one) => keyOf(one) === chosen) ?? costs.lines[0];
  return (
    <div class="lines-wide">
      <Table
        caption={`${words.lines(costs.lines.length)}. ${words.inCurrency(costs.currency)}`}
        columns={columnsOf(costs, setup)}
        rows={costs.lines}
        keyOf={keyOf}
        totalLabel={words.sum}
        empty={words.noLines}
        onOpen={(one) => setChosen(keyOf(one))}
        current={line ? keyOf(line) : null}
      />
      {line && (
        <section class="sheet" aria-labelledby="chosen-title">
          <h2 id="chosen-title" class="unseen">
            {words.chosen}
          </h2>
          <ul class="lines">
            <Line key={keyOf(line)} {...props} line={line} />
          </ul>
        </section>
      )}
    </div>
  );
}

const amount = (text: string | undefined) => (text === undefined ? "–" : money(text, "").trim());
const sortable = (text: string | undefined) => (text === undefined ? null : Number(text));

function columnsOf({ totals }: Costs, setup: EventSetup): Column<CostLine>[] {
  return [
    { id: "line", label: words.job, cell: (one) => lineLabel(one, setup), sortBy: (one) => lineLabel(one, setup) },
    { id: "stage", label: words.stage, cell: (one) => one.stage ?? "–", sortBy: (one) => one.stage },
    {
      id: "min",
      label: words.minEstimate,
      number: true,
      cell: (one) => one.estimate.minutes,
      sortBy: (one) => one.estimate.minutes,
    },
    {
      id: "min-actual",
      label: words.minActual,
      number: true,
      cell: (one) => one.actual?.minutes ?? "–",
      sortBy: (one) => one.actual?.minutes ?? null,
    },
    {
      id: "estimate",
      label: words.estimate,
      number: true,
      cell: (one) => amount(one.estimate.total),
      sortBy: (one) => sortable(one.estimate.total),
      total: amount(totals.estimate),
    },
    {
      id: "actual",
      label: words.actual,
      number: true,
      cell: (one) => amount(one.actual?.total),
      sortBy: (one) => sortable(one.actual?.total),
      total: amount(totals.actual),
    },
  ];
}

/** What a line is for: a job, or an access step at its place. */
function lineLabel(line: CostLine, setup: EventSetup): string {
  if (line.job !== null && line.kind !== "access") return jobLabel(setup.car_map, line.job);
  const step = queue.action(accessName(line.step ?? line.line));
  return line.zone === null ? step : common.and(zoneLabel(setup.car_map, line.zone), step);
}

function Line(props: CostLinesProps & { line: CostLine }) {
  const { line, costs, setup } = props;
  const { estimate, actual } = line;
  const { currency } = costs;
  const where = [
    words.kind[line.kind],
    line.kind !== "access" && line.action && queue.action(line.action),
    line.stage,
    line.service && words.service(line.service),
    common.car(line.car),
  ];
  const done = actual?.minutes === null && line.kind === "repair" ? words.notTimed : actual?.minutes;
  return (
    <li class="line">
      <h3>{lineLabel(line, setup)}</h3>
      <div class="about">
        <p class="soft">{where.filter(Boolean).join(" · ")}</p>
        {line.temporary && <p class="tag">{words.temporary}</p>}
        {line.baseline && <p class="tag">{words.wasThere}</p>}
        {actual?.parts.map(({ part, qty }) => (
          <p key={part} class="soft">
            {queue.part(qty, partName(setup, part))}
          </p>
        ))}
      </div>
      <dl>
        <dt>{words.estimate}</dt>
        <dd>
          {money(estimate.total, currency)} <span class="soft">{words.minutes(String(estimate.minutes))}</span>
        </dd>
        <dt>{words.actual}</dt>
        <dd>
          {actual === null ? words.noActual : money(actual.total, currency)}{" "}
          {actual && done != null && (
            <span class="soft">{typeof done === "number" ? words.minutes(String(done)) : done}</span>
          )}
        </dd>
      </dl>
      <LineMore {...props} label={lineLabel(line, setup)} />
    </li>
  );
}
