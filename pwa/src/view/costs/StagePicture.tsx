/** Money by stage along the itinerary: a column for estimate and actual over each stage, services between. */

import { useId } from "preact/hooks";
import type { Costs, EventSetup } from "../../kit/api";
import { costs as words } from "../words/costs";
import { CostTable } from "./CostTable";
import { Hatches, hatchOf } from "./Hatch";
import { itineraryOf, type Row, type Slot, wholeUnits } from "./itinerary";
import { useWidth } from "./useWidth";

const TOP = 22;
const BASE = 142;
const HEIGHT = 218;
/** Until the element was measured. */
const FIRST_WIDTH = 280;

export function StagePicture({ costs, setup }: { costs: Costs; setup: EventSetup }) {
  const [place, width] = useWidth<HTMLDivElement>(FIRST_WIDTH);
  const id = useId();
  const rows = itineraryOf(setup.stages, setup.services, costs.by_stage, Math.max(200, width));
  return (
    <section class="sheet along" aria-labelledby="by-stage">
      <h2 id="by-stage">{words.byStage}</h2>
      <p class="soft">{words.stageKey}</p>
      <div ref={place} class="itinerary" role="img" aria-label={words.byStageOf}>
        {rows.map((row, place) => (
          <RowDrawing
            key={row.slots[0]?.stage ?? "none"}
            id={`${id}-${place}`}
            row={row}
            width={Math.max(200, width)}
          />
        ))}
      </div>
      <CostTable
        title={words.byStage}
        column={words.stage}
        currency={costs.currency}
        rows={costs.by_stage.map((row) => ({ ...row, label: row.stage ?? words.noStage }))}
      />
    </section>
  );
}

function RowDrawing({ id, row, width }: { id: string; row: Row; width: number }) {
  const last = row.slots.at(-1);
  const end = last ? last.x + last.width : width;
  return (
    <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} aria-hidden="true" focusable="false">
      <Hatches id={id} />
      <path class="road" d={`M2 ${BASE}H${end + 5}`} />
      <rect class="estimate" x="1" y="182" width="9" height="11" />
      <rect class="actual" x="1" y="200" width="9" height="11" fill={hatchOf(id, 3)} />
      {row.slots.map((slot) => (
        <Column key={slot.stage ?? ""} id={id} slot={slot} />
      ))}
      {row.services.map(({ service, x }) => (
        <g key={service} class="service-mark">
          <path d={`M${x} ${TOP - 4}V${BASE}`} />
          <path class="dot" d={`M${x} ${BASE - 6}L${x + 6} ${BASE}L${x} ${BASE + 6}L${x - 6} ${BASE}Z`} />
          <text x={x} y={TOP - 8}>
            {service}
          </text>
        </g>
      ))}
    </svg>
  );
}

function Column({ id, slot }: { id: string; slot: Slot }) {
  const { x, width, km } = slot;
  const half = width / 2;
  const tall = BASE - TOP - 6;
  const bar = (share: number) => (share > 0 ? Math.max(2, share * tall) : 0);
  const estimate = bar(slot.estimate_share);
  const actual = bar(slot.actual_share);
  const middle = x + half;
  return (
    <g>
      {estimate > 0 && <rect class="estimate" x={x + 1} y={BASE - estimate} width={half - 2} height={estimate} />}
      {actual > 0 && (
        <rect class="actual" x={middle + 1} y={BASE - actual} width={half - 2} height={actual} fill={hatchOf(id, 3)} />
      )}
      <text class="name" x={middle} y={BASE + 18}>
        {slot.stage ?? words.noStage}
      </text>
      {km !== null && (
        <text class="km" x={middle} y={BASE + 34}>
          {km} km
        </text>
      )}
      <text x={middle} y={BASE + 51}>
        {wholeUnits(slot.estimate)}
      </text>
      <text x={middle} y={BASE + 69}>
        {wholeUnits(slot.actual)}
      </text>
    </g>
  );
}
