/** The cost sheet for the manager: totals, where the money goes, lines, adjustments. */

import type { Costs, EventSetup } from "../../kit/api";
import { money } from "../../kit/money";
import { heardAt, jobLabel, personName, zoneLabel } from "../labels";
import type { CarScreen } from "../queue/QueueScreen";
import { CostFiles } from "../documents/CostFiles";
import { usualPaper } from "../documents/papers";
import { costs as words } from "../words/costs";
import { Adjust } from "./Adjust";
import { CostChart } from "./CostChart";
import { CostLines } from "./CostLines";
import "./costs.css";

export function CostsScreen({ state, setup, actions }: CarScreen) {
  const manager = state.identity?.roles.includes("manager");
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      {!manager && <p>{words.onlyManager}</p>}
      {manager && (
        <div class="row even">
          <a class="button" href="#/statement">
            {words.statement}
          </a>
          <a class="button" href="#/season">
            {words.season}
          </a>
        </div>
      )}
      {manager && !state.costs && <p>{words.none}</p>}
      {manager && state.costs && (
        <Sheet
          costs={state.costs.answer}
          heard={heardAt(setup, state.costs.heard_at, state.now)}
          setup={setup}
          actions={actions}
        />
      )}
    </div>
  );
}

interface SheetProps {
  costs: Costs;
  heard: string;
  setup: EventSetup;
  actions: CarScreen["actions"];
}

function Sheet({ costs, heard, setup, actions }: SheetProps) {
  const map = setup.car_map;
  return (
    <>
      <p class="soft">
        {words.heard(heard)} · {words.rates(costs.rates)}
      </p>
      <Totals costs={costs} />
      <div class="charts">
        <CostChart
          id="by-stage"
          title={words.byStage}
          column={words.stage}
          currency={costs.currency}
          rows={costs.by_stage.map((row) => ({ ...row, label: row.stage ?? words.noStage }))}
        />
        <CostChart
          id="by-zone"
          title={words.byZone}
          column={words.zone}
          currency={costs.currency}
          rows={costs.by_zone.map((row) => ({ ...row, label: zoneLabel(map, row.zone) }))}
        />
      </div>
      <CostFiles paper={usualPaper(setup.timezone)} fetchDocument={actions.fetchDocument} />
      <CostLines costs={costs} setup={setup} />
      <Adjusted costs={costs} setup={setup} />
      <Adjust costs={costs} setup={setup} adjustCost={actions.adjustCost} />
    </>
  );
}

function Totals({ costs }: { costs: Costs }) {
  const { totals, currency } = costs;
  const rows: [string, string][] = [
    [words.estimate, totals.estimate],
    [words.actual, totals.actual],
    [words.adjustments, totals.adjustments],
    [words.before, totals.before_tax],
    [words.tax(String(costs.tax_percent)), totals.tax],
  ];
  return (
    <section class="sheet totals" aria-labelledby="totals-title">
      <h2 id="totals-title">{words.totals}</h2>
      <table>
        <caption class="unseen">{words.totals}</caption>
        <tbody>
          {rows.map(([label, amount]) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td class="number">{money(amount, currency)}</td>
            </tr>
          ))}
          <tr class="sum">
            <th scope="row">{words.total}</th>
            <td class="number">{money(totals.total, currency)}</td>
          </tr>
        </tbody>
      </table>
    </section>
  );
}

function Adjusted({ costs, setup }: { costs: Costs; setup: EventSetup }) {
  if (!costs.adjustments.length) return null;
  return (
    <section class="sheet" aria-labelledby="adjusted-title">
      <h2 id="adjusted-title">{words.adjusted}</h2>
      <ul class="stack">
        {costs.adjustments.map((one) => (
          <li key={one.entry}>
            <p>
              <span class="strong">{money(one.amount, costs.currency)}</span> · {jobLabel(setup.car_map, one.line)}
              {!one.counts && <span class="warn"> · {words.notCounted}</span>}
            </p>
            <p class="soft">
              {one.reason} · {personName(setup, one.person)}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}
