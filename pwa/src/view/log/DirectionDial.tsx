/** Where the hit came from: a clock face round the car, from below, or not known. */

import type { Direction } from "../../kit/api";
import { log } from "../words/log";

const HOURS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12] as const;

interface DirectionDial {
  value: Direction | null;
  onPick: (value: Direction | null) => void;
}

interface Hour {
  hour: (typeof HOURS)[number];
  pressed: boolean;
  onPick: () => void;
}

function Hour({ hour, pressed, onPick }: Hour) {
  const angle = (hour * Math.PI) / 6;
  const x = 150 + 117 * Math.sin(angle);
  const y = 150 - 117 * Math.cos(angle);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button element cannot stand inside a drawing.
    <g
      class="hour"
      role="button"
      tabindex={0}
      aria-pressed={pressed}
      aria-label={log.oclock(hour)}
      onClick={onPick}
      onKeyDown={(event) => {
        if (event.key !== "Enter" && event.key !== " ") return;
        event.preventDefault();
        onPick();
      }}
    >
      <circle cx={x} cy={y} r={29} />
      <text x={x} y={y + 6}>
        {hour}
      </text>
    </g>
  );
}

export function DirectionDial({ value, onPick }: DirectionDial) {
  return (
    <fieldset>
      <legend>{log.direction}</legend>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot hold a drawing's shapes. */}
      <svg class="dial" viewBox="0 0 300 300" role="group" aria-label={log.direction}>
        <path class="dial-car" d="M126 110Q150 92 174 110V196Q150 206 126 196ZM130 132Q150 124 170 132" />
        {HOURS.map((hour) => (
          <Hour key={hour} hour={hour} pressed={hour === value} onPick={() => onPick(hour === value ? null : hour)} />
        ))}
      </svg>
      <div class="row even">
        <button type="button" class="button" aria-pressed={value === "below"} onClick={() => onPick("below")}>
          {log.below}
        </button>
        <button type="button" class="button" aria-pressed={value === null} onClick={() => onPick(null)}>
          {log.directionNone}
        </button>
      </div>
    </fieldset>
  );
}
