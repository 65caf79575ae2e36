/** What to carry to the event: parts, the stock that covers, what the van holds, what is still to be bought. */

import type { SparePart, Spares } from "../../kit/api";
import { amountOf, money } from "../../kit/money";
import type { Actions } from "../../flow/model";
import { ProblemLine } from "../bits/Problem";
import { useDraft } from "../bits/useDraft";
import { usePending } from "../bits/usePending";
import { season as words } from "../words/season";
import type { Cover } from "./layout";
import { bare, number } from "./names";
import { Table } from "./Table";

interface CarryProps {
  spares: Spares;
  cover: Cover;
}

export function Carry({ spares, cover }: CarryProps) {
  if (spares.model === "counts") return <Counts spares={spares} />;
  const total = spares.totals.find((one) => one.cover === cover);
  return (
    <section class="sheet" aria-labelledby="carry-title">
      <h2 id="carry-title">{words.carry.title}</h2>
      <p>
        {words.carry.ahead(number(spares.km), spares.cars)} {words.carry.coverHint(cover)}
      </p>
      <p class="soft">
        {words.carry.basis(spares.events, number(spares.car_km))} {spares.model === "gamma-poisson" && words.carry.few}{" "}
        {words.carry.costOf(spares.currency)}
      </p>
      <Table
        caption={words.carry.parts}
        named={words.carry.part}
        head={[words.carry.expected, words.carry.stock, words.carry.van, words.carry.buy, words.carry.cost]}
        rows={spares.parts.map((part) => ({ key: part.part, name: <Name part={part} />, cells: cellsOf(part, cover) }))}
      />
      {total && (
        <dl class="totals-pair">
          <dt>{words.carry.total}</dt>
          <dd>{money(total.cost, spares.currency)}</dd>
          <dt>{words.carry.buyTotal}</dt>
          <dd>{money(total.buy_cost, spares.currency)}</dd>
        </dl>
      )}
      <p class="soft">{words.carry.never(spares.never_called_for)}</p>
    </section>
  );
}

/** After one event or two one bad day would be advice: what was called for, and no more. */
function Counts({ spares }: { spares: Spares }) {
  return (
    <section class="sheet" aria-labelledby="carry-title">
      <h2 id="carry-title">{words.carry.title}</h2>
      <p>{words.carry.counts(spares.events)}</p>
      <p class="soft">{words.carry.basis(spares.events, number(spares.car_km))}</p>
      <Table
        caption={words.carry.parts}
        named={words.carry.part}
        head={[words.carry.calls, words.carry.pieces, words.carry.van]}
        rows={spares.parts.map((part) => ({
          key: part.part,
          name: <Name part={part} />,
          cells: [part.calls, part.pieces, part.van].map(number),
        }))}
      />
    </section>
  );
}

function Name({ part }: { part: SparePart }) {
  return (
    <>
      {part.description || part.part} <span class="soft">({part.part})</span>
      {part.bunched && <span class="bunched">{words.carry.bunched}</span>}
    </>
  );
}

function cellsOf(part: SparePart, cover: Cover): string[] {
  const cell = part.covers.find((one) => one.cover === cover);
  if (!cell) return [];
  const cost = cell.buy_cost === null ? words.carry.noPrice : bare(cell.buy_cost);
  return [number(part.expected), number(cell.stock), number(part.van), number(cell.buy), cost];
}

interface AheadProps {
  spares: Spares | null;
  askSpares: Actions["askSpares"];
}

/** The event to pack for: as the server's last answer has it until something else is typed. */
export function Ahead({ spares, askSpares }: AheadProps) {
  const { draft, change, reset } = useDraft<{ km?: string; cars?: string }>({});
  const { busy, problem, run } = usePending();
  const typed = { km: String(spares?.km ?? ""), cars: String(spares?.cars ?? ""), ...draft };
  const calculate = () => {
    const wish = { km: Number(amountOf(typed.km) ?? Number.NaN), cars: Number(typed.cars || Number.NaN) };
    run(async () => {
      await askSpares(wish);
      reset();
    }, faultOf(wish));
  };
  return (
    <div class="sheet">
      <div class="row even ahead">
        <label>
          <span class="label">{words.carry.km}</span>
          <input
            type="text"
            inputMode="decimal"
            value={typed.km}
            onInput={(event) => change({ km: event.currentTarget.value })}
          />
        </label>
        <label>
          <span class="label">{words.carry.cars}</span>
          <input
            type="text"
            inputMode="numeric"
            value={typed.cars}
            onInput={(event) => change({ cars: event.currentTarget.value })}
          />
        </label>
      </div>
      <button type="button" class="button" disabled={busy} onClick={calculate}>
        {words.carry.calculate}
      </button>
      <ProblemLine text={problem} />
    </div>
  );
}

function faultOf({ km, cars }: { km: number; cars: number }): string | null {
  if (!(km > 0 && km <= 5000)) return words.carry.badKm;
  return Number.isInteger(cars) && cars >= 1 && cars <= 50 ? null : words.carry.badCars;
}
