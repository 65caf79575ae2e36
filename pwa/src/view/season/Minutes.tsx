/** Estimate against actual minutes of each operation that was timed: a ring, a dot and a line; the table behind. */

import type { EventSetup, Season } from "../../kit/api";
import { season as words } from "../words/season";
import { type Dumbbell, dumbbellsOf } from "./layout";
import { useWide } from "../shell/useWide";
import { number, operationKey, operationLabel } from "./names";
import { Table } from "./Table";

/** More rows than a person looks through on a phone; the table has them all. */
const MOST_DRAWN = 15;

export function Minutes({ season, setup }: { season: Season; setup: EventSetup }) {
  const { operations } = season;
  const wide = useWide();
  const drawn = operations.slice(0, MOST_DRAWN);
  const { top, rows } = dumbbellsOf(drawn);
  const name = (row: Dumbbell) => operationLabel(setup.car_map, row.operation);
  return (
    <section class="sheet" aria-labelledby="minutes-title">
      <h2 id="minutes-title">{words.minutes.title}</h2>
      {operations.length === 0 && <p>{words.minutes.none}</p>}
      {operations.length > 0 && (
        <>
          <p class="soft">
            {words.minutes.chartKey} {words.minutes.scale(number(top))}
          </p>
          {operations.length > drawn.length && <p>{words.minutes.first(drawn.length, operations.length)}</p>}
          <ul class="dumbbells">
            {rows.map((row) => (
              <li key={operationKey(row.operation)}>
                <span class="strong">{name(row)}</span>
                <span class="soft">{saidOf(row)}</span>
                <Drawing row={row} />
              </li>
            ))}
          </ul>
          <details open={wide}>
            <summary>{words.table}</summary>
            <Table
              caption={words.minutes.caption}
              captionUnseen
              named={words.minutes.operation}
              head={[words.minutes.timed, words.estimate, words.actual, words.minutes.range]}
              rows={operations.map((one) => ({
                key: operationKey(one),
                name: operationLabel(setup.car_map, one),
                cells: [
                  number(one.timed),
                  number(one.estimate_minutes),
                  number(one.actual_minutes),
                  `${number(one.least_minutes)} – ${number(one.most_minutes)}`,
                ],
              }))}
            />
          </details>
        </>
      )}
    </section>
  );
}

function saidOf({ operation }: Dumbbell): string {
  const { expected, took, times } = words.minutes;
  const pair = `${expected(number(operation.estimate_minutes))}, ${took(number(operation.actual_minutes))}`;
  return `${pair} · ${times(operation.timed)}`;
}

// Shares are percentages of the width, so that rings stay round on any screen.
function Drawing({ row }: { row: Dumbbell }) {
  const at = (share: number) => `${share * 100}%`;
  return (
    <svg class="dumbbell" height="22" aria-hidden="true" focusable="false">
      <line class="grid" x1="0" x2="100%" y1="11" y2="11" />
      <line class="range" x1={at(row.least)} x2={at(row.most)} y1="11" y2="11" />
      <line class="end" x1={at(row.least)} x2={at(row.least)} y1="5" y2="17" />
      {row.beyond ? (
        <svg x="100%" overflow="visible" aria-hidden="true">
          <path class="beyond" d="M0 4 L10 11 L0 18 Z" />
        </svg>
      ) : (
        <line class="end" x1={at(row.most)} x2={at(row.most)} y1="5" y2="17" />
      )}
      <circle class="actual" cx={at(row.actual)} cy="11" r="6" />
      <circle class="estimate" cx={at(row.estimate)} cy="11" r="8" />
    </svg>
  );
}
