/** The car as a drawing to tap: every zone a big shape with a name, its open reports as a number in a marker. */

import { useState } from "preact/hooks";
import type { CarMap } from "../../kit/api";
import { OneOf } from "../bits/Chips";
import { zoneLabel } from "../labels";
import { common } from "../words/common";
import { CarBody } from "./CarBody";
import "./car.css";
import { linesOf, SIDES, type Shape, type Side, shapesOf, sideOf, undrawn, viewBox } from "./shapes";
import { useRoom } from "./useRoom";

interface CarDrawing {
  map: CarMap;
  chosen: string | null;
  /** Open reports by zone. */
  counts: Record<string, number>;
  /** Places at which something holds the car. */
  held?: string[];
  onPick: (zone: string) => void;
}

const nameOf = (label: string, count: number) => (count ? `${label}, ${common.openReports(count)}` : label);

interface ZoneShape {
  shape: Shape;
  label: string;
  count: number;
  /** Something there holds the car. */
  holds: boolean;
  pressed: boolean | undefined;
  /** How much larger than usual the letters are. */
  scale: number;
  onPick: () => void;
}

function ZoneShape({ shape, label, count, holds, pressed, scale, onPick }: ZoneShape) {
  const lines = linesOf(label, scale);
  const first = Math.max(shape.y - ((lines.length - 1) * 8 - 5) * scale, shape.top + 12 * scale);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button element cannot stand inside a drawing.
    <g
      class="zone"
      role="button"
      tabindex={0}
      aria-pressed={pressed}
      aria-label={nameOf(label, count)}
      onClick={onPick}
      onKeyDown={(event) => {
        if (event.key !== "Enter" && event.key !== " ") return;
        event.preventDefault();
        onPick();
      }}
    >
      <path d={shape.d} />
      <text x={shape.x} y={first} font-size={15 * scale}>
        {lines.map((line, index) => (
          <tspan key={line} x={shape.x} dy={index ? 16 * scale : 0}>
            {line}
          </tspan>
        ))}
      </text>
      {count > 0 && <CountMark at={shape.mark} count={count} holds={holds} />}
    </g>
  );
}

// Round, or an octagon as the strip that says HOLD.
const ROUND = "a14 14 0 1 0 .01 0z";
const OCTAGON = "m-6 0h12l8.5 8.5v12l-8.5 8.5h-12l-8.5-8.5v-12z";

function CountMark({ at: [x, y], count, holds }: { at: readonly [number, number]; count: number; holds: boolean }) {
  return (
    <g class={holds ? "count holds" : "count"}>
      <path d={`M${x} ${y - 14}${holds ? OCTAGON : ROUND}`} />
      <text x={x} y={y + 5}>
        {count}
      </text>
    </g>
  );
}

/** Zones of the map that the drawing does not know stand as buttons below it. */
export function CarDrawing({ map, chosen, counts, held = [], onPick }: CarDrawing) {
  const [wanted, setWanted] = useState<Side>("top");
  const side = sideOf(chosen, wanted);
  const { reach, scale } = useRoom();
  const zones = Object.keys(map.zones);
  const shapes = shapesOf(side, reach).filter((shape) => zones.includes(shape.zone));
  return (
    <div class="car">
      <OneOf
        legend={common.drawing}
        value={side}
        onPick={(next) => setWanted(next)}
        options={SIDES.map((one) => ({ value: one, label: common.sides[one] }))}
      />
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot hold a drawing's shapes. */}
      <svg class="drawing" viewBox={viewBox(side, reach)} role="group" aria-label={common.carSeen[side]}>
        <CarBody side={side} />
        {shapes.map((shape) => (
          <ZoneShape
            key={shape.zone}
            shape={shape}
            label={zoneLabel(map, shape.zone)}
            count={counts[shape.zone] ?? 0}
            holds={held.includes(shape.zone)}
            // Where none is chosen yet, "not pressed" at each of them says nothing.
            pressed={chosen ? shape.zone === chosen : undefined}
            scale={scale}
            onPick={() => onPick(shape.zone)}
          />
        ))}
      </svg>
      <OtherZones map={map} zones={undrawn(zones)} chosen={chosen} counts={counts} onPick={onPick} />
    </div>
  );
}

function OtherZones({ map, zones, chosen, counts, onPick }: CarDrawing & { zones: string[] }) {
  if (!zones.length) return null;
  return (
    <div class="stack">
      <h2>{common.otherZones}</h2>
      <div class="row">
        {zones.map((zone) => (
          <button
            key={zone}
            type="button"
            class="button"
            aria-pressed={chosen ? zone === chosen : undefined}
            onClick={() => onPick(zone)}
          >
            {nameOf(zoneLabel(map, zone), counts[zone] ?? 0)}
          </button>
        ))}
      </div>
    </div>
  );
}
