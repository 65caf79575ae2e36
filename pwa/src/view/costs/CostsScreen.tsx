/** The cost sheet for the manager: totals, where the money goes, lines, adjustments. */

import type { Costs, EventSetup } from "../../kit/api";
import { setApart } from "../../kit/language";
import { money } from "../../kit/money";
import { hitsOf } from "../../report/incidents";
import { heardAt, jobLabel, personName } from "../labels";
import { CostFiles } from "../documents/CostFiles";
import { usualLanguage, usualPaper } from "../documents/papers";
import type { CarScreen } from "../screen";
import { costs as words } from "../words/costs";
import { Adjust } from "./Adjust";
import { ByOther } from "./ByOther";
import { CostLines } from "./CostLines";
import "./costs.css";
import { Dock } from "../ui/Dock";
import { Figure, Tile, Tiles } from "../ui/Figure";
import { useWide } from "../shell/useWide";
import { StagePicture } from "./StagePicture";
import { ZonePicture } from "./ZonePicture";
import { common } from "../words/common";

export function CostsScreen({ state, setup, car, actions }: CarScreen) {
  const manager = state.identity?.roles.includes("manager");
  return (
    <div class="stack">
      <h1 class="unseen">{words.title}</h1>
      {!manager && <p>{words.onlyManager}</p>}
      {manager && !state.costs && <p>{words.none}</p>}
      {manager && state.costs && !isWhole(state.costs.answer) && <p>{words.old}</p>}
      {manager && state.costs && isWhole(state.costs.answer) && (
        <Sheet
          state={state}
          car={car}
          costs={state.costs.answer}
          heard={heardAt(setup, state.costs.heard_at, state.now)}
          setup={setup}
          actions={actions}
        />
      )}
      {manager && (
        <div class="costs-dock">
          <Dock
            primary={{ children: words.statement, href: "#/statement" }}
            secondary={{ children: words.season, href: "#/season" }}
          />
        </div>
      )}
    </div>
  );
}

// A sheet that an older app kept lacks what the pictures show, until the server answers again.
const isWhole = (costs: Costs): boolean => costs.by_driver !== undefined && costs.per_stage_km !== undefined;

interface SheetProps extends CarScreen {
  costs: Costs;
  heard: string;
}

function Sheet({ state, costs, heard, setup, car, actions }: SheetProps) {
  const wide = useWide();
  const lines = <CostLines costs={costs} setup={setup} entries={state.entries} hits={hitsOf(state.entries, car)} />;
  return (
    <>
      <Answer costs={costs} />
      <p class="soft">
        {words.heard(heard)} · {words.rates(costs.rates)}
      </p>
      {wide && lines}
      <Totals costs={costs} />
      <PerKm costs={costs} />
      <a class="button" href="#/incidents">
        {words.incidents}
      </a>
      <div class="charts">
        <StagePicture costs={costs} setup={setup} />
        <ZonePicture costs={costs} setup={setup} />
        <ByOther costs={costs} setup={setup} />
      </div>
      <CostFiles
        paper={usualPaper(setup.timezone)}
        language={usualLanguage(setup)}
        event={setup.name}
        fetchDocument={actions.fetchDocument}
      />
      {!wide && lines}
      <Adjusted costs={costs} setup={setup} />
      <Adjust costs={costs} setup={setup} adjustCost={actions.adjustCost} />
    </>
  );
}

/** What the manager came for, before all that it is made of; the currency once. */
function Answer({ costs }: { costs: Costs }) {
  const { totals, currency, per_stage_km } = costs;
  const figure = (amount: string) => money(amount, "").trim();
  return (
    <div class="costs-answer">
      <div class="costs-total">
        <Figure
          size="largest"
          value={figure(totals.total)}
          unit={currency}
          label={words.totalWith(costs.tax_percent)}
        />
      </div>
      <Tiles>
        <Tile label={words.actual} value={figure(totals.actual)} />
        <Tile label={words.estimate} value={figure(totals.estimate)} />
        <Tile label={words.adjustments} value={figure(totals.adjustments)} />
        {per_stage_km.actual !== null && <Tile label={words.perKmShort} value={figure(per_stage_km.actual)} />}
      </Tiles>
    </div>
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

/** Money per stage kilometre, what of it is consumables, and what is in no sum. */
function PerKm({ costs }: { costs: Costs }) {
  const { per_stage_km, baseline, totals, currency } = costs;
  const per = (amount: string | null) => (amount === null ? words.perKmNone : words.perKm(money(amount, currency)));
  const wasThere = Number(baseline.estimate) !== 0 || Number(baseline.actual) !== 0;
  return (
    <section class="sheet" aria-labelledby="per-km-title">
      <h2 id="per-km-title">{words.rate}</h2>
      <p class="soft">{words.overKm(setApart(String(costs.stage_km)))}</p>
      <dl class="facts">
        <dt>{words.estimate}</dt>
        <dd>{per(per_stage_km.estimate)}</dd>
        <dt>{words.actual}</dt>
        <dd>{per(per_stage_km.actual)}</dd>
        {wasThere && (
          <>
            <dt>{words.baseline}</dt>
            <dd>{words.shared(money(baseline.estimate, currency), money(baseline.actual, currency))}</dd>
          </>
        )}
      </dl>
      <p>{common.and(words.consumables(String(costs.consumables_percent)), money(totals.consumables, currency))}</p>
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
