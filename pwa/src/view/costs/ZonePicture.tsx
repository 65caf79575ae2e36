/** Money by place on the car: the amount in each zone, hatched the denser the more; both sides, and what is on neither. */

import { useId, useState } from "preact/hooks";
import type { Costs, EventSetup } from "../../kit/api";
import { money } from "../../kit/money";
import { OneOf } from "../bits/Chips";
import { CarBody } from "../car/CarBody";
import "../car/car.css";
import { linesOf, SHAPES, type Shape, type Side, undrawn, viewBox } from "../car/shapes";
import { zoneLabel } from "../labels";
import { common } from "../words/common";
import { costs as words } from "../words/costs";
import { CostTable } from "./CostTable";
import { Hatches, hatchOf } from "./Hatch";
import { largestOf, STEPS, stepOf } from "./hatching";
import { wholeUnits } from "./itinerary";

type Shown = "estimate" | "actual";

export function ZonePicture({ costs, setup }: { costs: Costs; setup: EventSetup }) {
  const map = setup.car_map;
  const isPaid = costs.by_zone.some((row) => Number(row.actual) > 0);
  const [shown, setShown] = useState<Shown>(isPaid ? "actual" : "estimate");
  const amounts = new Map(costs.by_zone.map((row) => [row.zone ?? "", row[shown]]));
  const missing = costs.by_zone.filter(({ zone }) => zone === null || undrawn([zone]).length > 0);
  const side = (which: Side) => <SideDrawing side={which} amounts={amounts} setup={setup} />;
  return (
    <section class="sheet" aria-labelledby="by-zone">
      <h2 id="by-zone">{words.byZone}</h2>
      <OneOf
        legend={words.zoneShown}
        value={shown}
        onPick={setShown}
        options={[
          { value: "estimate", label: words.estimate },
          { value: "actual", label: words.actual },
        ]}
      />
      <div class="sides">
        {side("top")}
        {side("under")}
      </div>
      <Key />
      {missing.length > 0 && (
        <dl class="missing">
          <dt class="strong">{words.notDrawn}</dt>
          {missing.map((row) => (
            <dd key={row.zone}>{common.and(zoneLabel(map, row.zone), money(row[shown], costs.currency))}</dd>
          ))}
        </dl>
      )}
      <CostTable
        title={words.byZone}
        column={words.zone}
        currency={costs.currency}
        rows={costs.by_zone.map((row) => ({ ...row, label: zoneLabel(map, row.zone) }))}
      />
    </section>
  );
}

interface SideProps {
  side: Side;
  amounts: Map<string, string>;
  setup: EventSetup;
}

function SideDrawing({ side, amounts, setup }: SideProps) {
  const id = useId();
  const name = side === "top" ? common.sideTop : common.sideUnder;
  const largest = largestOf([...amounts.values()]);
  const shapes = SHAPES[side].filter((shape) => shape.zone in setup.car_map.zones);
  return (
    <figure>
      <figcaption class="strong">{name}</figcaption>
      <svg class="drawing" viewBox={viewBox(side, 2)} role="img" aria-label={words.byZoneOf(name)}>
        <Hatches id={id} />
        <CarBody side={side} />
        {shapes.map((shape) => (
          <ZoneMoney
            key={shape.zone}
            shape={shape}
            label={zoneLabel(setup.car_map, shape.zone)}
            amount={amounts.get(shape.zone) ?? "0"}
            fill={hatchOf(id, stepOf(amounts.get(shape.zone) ?? "0", largest))}
          />
        ))}
      </svg>
    </figure>
  );
}

interface ZoneMoneyProps {
  shape: Shape;
  label: string;
  amount: string;
  fill: string;
}

function ZoneMoney({ shape, label, amount, fill }: ZoneMoneyProps) {
  const lines = linesOf(label);
  const has = Number(amount) !== 0;
  const first = shape.y - (lines.length - 1 + (has ? 1 : 0)) * 9 + 5;
  const written = (kind: string) => (
    <text class={kind} x={shape.x} y={first}>
      {lines.map((line, index) => (
        <tspan key={line} x={shape.x} dy={index ? 17 : 0}>
          {line}
        </tspan>
      ))}
      {has && (
        <tspan class="amount" x={shape.x} dy={20}>
          {wholeUnits(amount)}
        </tspan>
      )}
    </text>
  );
  // The hatching is wiped away behind all lines first: a line's own edge would cut the one above it.
  return (
    <g class="zone-money">
      <path d={shape.d} fill={fill} />
      {written("behind-words")}
      {written("words")}
    </g>
  );
}

function Key() {
  const id = useId();
  return (
    <>
      <p class="soft">{words.zoneKey}</p>
      <ul class="hatch-key">
        {STEPS.map((step) => (
          <li key={step}>
            <svg width="44" height="28" aria-hidden="true" focusable="false">
              <Hatches id={`${id}-${step}`} scale={0.75} />
              <rect class="swatch" x="1" y="1" width="42" height="26" fill={hatchOf(`${id}-${step}`, step)} />
            </svg>
            {words.hatch[step]}
          </li>
        ))}
      </ul>
    </>
  );
}
