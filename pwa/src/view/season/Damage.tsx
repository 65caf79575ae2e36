/** Damage per event over the season: columns, and behind them the server's numbers. */

import type { Season, SeasonEvent } from "../../kit/api";
import { dayText } from "../labels";
import { season as words } from "../words/season";
import { useWide } from "../shell/useWide";
import { type Columns, columnsOf } from "./layout";
import { bare, number } from "./names";
import { Table } from "./Table";

export function Damage({ season }: { season: Season }) {
  return (
    <section class="sheet" aria-labelledby="damage-title">
      <h2 id="damage-title">{words.damage.title}</h2>
      {season.events.length === 0 ? (
        <p>{words.damage.none}</p>
      ) : (
        <>
          <p class="soft">{words.damage.chartKey}</p>
          {columnsOf(season.events).map((of) => (
            <Chart key={of.currency} of={of} />
          ))}
          <p class="soft">{words.damage.caution}</p>
        </>
      )}
    </section>
  );
}

function Chart({ of }: { of: Columns }) {
  const wide = useWide();
  const events = of.columns.map((one) => one.event);
  return (
    <>
      <div class="columns-beside">
        <Drawing of={of} />
        <ol class="bulleted">
          {events.map((one) => (
            <li key={one.event}>
              {one.name}
              <span class="soft">
                {" "}
                · {[one.began && dayText(one.began), words.damage.cars(one.cars)].filter(Boolean).join(" · ")}
              </span>
            </li>
          ))}
        </ol>
      </div>
      <details open={wide}>
        <summary>{wide ? words.table : words.tables}</summary>
        <div class="stack">
          {wide ? (
            <WideTable events={events} currency={of.currency} />
          ) : (
            <Tables events={events} currency={of.currency} />
          )}
        </div>
      </details>
    </>
  );
}

const WIDTH = 320;
const LEFT = 52;
const TOP = 12;
const BASE = 172;
const HEIGHT = 192;

function Drawing({ of: { top, columns, currency } }: { of: Columns }) {
  const slot = (WIDTH - LEFT) / columns.length;
  const wide = Math.min(26, slot * 0.36);
  const y = (share: number) => BASE - share * (BASE - TOP);
  return (
    <svg class="columns" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={words.damage.chart}>
      {[0, 0.5, 1].map((share) => (
        <g key={share}>
          <line class="grid" x1={LEFT} x2={WIDTH} y1={y(share)} y2={y(share)} />
          <text x={LEFT - 5} y={y(share) + 4} text-anchor="end">
            {number(top * share)}
          </text>
        </g>
      ))}
      <text x={0} y={HEIGHT - 5}>
        {currency}
      </text>
      {columns.map(({ event, estimate_share, actual_share }, place) => {
        const middle = LEFT + slot * (place + 0.5);
        return (
          <g key={event.event}>
            <rect
              class="estimate"
              x={middle - wide}
              y={y(estimate_share)}
              width={wide - 1.5}
              height={BASE - y(estimate_share)}
            />
            <rect
              class="actual"
              x={middle + 1.5}
              y={y(actual_share)}
              width={wide - 1.5}
              height={BASE - y(actual_share)}
            />
            <text x={middle} y={HEIGHT - 5} text-anchor="middle">
              {place + 1}
            </text>
          </g>
        );
      })}
    </svg>
  );
}

interface TablesProps {
  events: SeasonEvent[];
  currency: string;
}

const rowsOf = (events: SeasonEvent[], cells: (event: SeasonEvent) => string[]) =>
  events.map((one) => ({ key: one.event, name: one.name, cells: cells(one) }));

const perKm = (amount: string | null) => (amount === null ? words.damage.noKm : bare(amount));

/** All of it in a line for each event, where there is room. */
function WideTable({ events, currency }: TablesProps) {
  const { damage } = words;
  const cells = (one: SeasonEvent) => [
    ...[one.estimate, one.actual].map(bare),
    number(one.stage_km),
    ...[one.per_stage_km.estimate, one.per_stage_km.actual].map(perKm),
    ...[one.incidents, one.jobs, one.safety_critical].map(number),
  ];
  const money = [words.estimate, words.actual, damage.stageKm, damage.estimatePerKm, damage.actualPerKm];
  const counts = [damage.incidents, damage.jobs, damage.safetyCritical];
  return (
    <Table
      caption={damage.money(currency)}
      named={words.event}
      head={[...money, ...counts]}
      rows={rowsOf(events, cells)}
    />
  );
}

function Tables({ events, currency }: TablesProps) {
  const rows = (cells: (event: SeasonEvent) => string[]) => rowsOf(events, cells);
  const { damage } = words;
  return (
    <>
      <Table
        caption={damage.money(currency)}
        named={words.event}
        head={[words.estimate, words.actual]}
        rows={rows((one) => [bare(one.estimate), bare(one.actual)])}
      />
      <Table
        caption={damage.perKm(currency)}
        named={words.event}
        head={[damage.stageKm, words.estimate, words.actual]}
        rows={rows((one) => [number(one.stage_km), perKm(one.per_stage_km.estimate), perKm(one.per_stage_km.actual)])}
      />
      <Table
        caption={damage.counts}
        named={words.event}
        head={[damage.incidents, damage.jobs, damage.safetyCritical]}
        rows={rows((one) => [one.incidents, one.jobs, one.safety_critical].map(number))}
      />
    </>
  );
}
