/** Everything that moves the ring without a finger on the photo. */

import { LARGEST, type Ring, SMALLEST } from "../../kit/ring";
import { ring as words } from "../words/ring";

interface RingControlsProps {
  ring: Ring;
  onMove: (ring: Ring) => void;
  /** Larger or smaller where it is. */
  onSize: (ring: Ring) => void;
  onTurn: () => void;
  onAnew: () => void;
}

/** A quarter larger or smaller a tap. */
const STEP = 1.25;
const LEAST = { x: 0, y: 0, across: SMALLEST };
const MOST = { x: 1, y: 1, across: LARGEST };
const SLIDERS = ["x", "y", "across"] as const;

export function RingControls({ ring, onMove, onSize, onTurn, onAnew }: RingControlsProps) {
  const sized = (by: number) => () => onSize({ ...ring, across: ring.across * by });
  return (
    <>
      <div class="row even">
        <button type="button" class="button" onClick={sized(1 / STEP)}>
          {words.smaller}
        </button>
        <button type="button" class="button" onClick={sized(STEP)}>
          {words.larger}
        </button>
      </div>
      <div class="row even">
        <button type="button" class="button" onClick={onTurn}>
          {words.turn}
        </button>
        <button type="button" class="button" onClick={onAnew}>
          {words.again}
        </button>
      </div>
      <details>
        <summary>{words.sliders}</summary>
        {SLIDERS.map((name) => (
          <Slider
            key={name}
            label={words[name]}
            least={LEAST[name]}
            most={MOST[name]}
            value={ring[name]}
            onSlide={(value) => (name === "across" ? onSize : onMove)({ ...ring, [name]: value })}
          />
        ))}
      </details>
    </>
  );
}

interface SliderProps {
  label: string;
  least: number;
  most: number;
  value: number;
  onSlide: (value: number) => void;
}

/** In whole percent, which arrow keys go through one by one. */
function Slider({ label, least, most, value, onSlide }: SliderProps) {
  const percent = Math.round(value * 100);
  return (
    <label class="ring-slider">
      <span class="label">{label}</span>
      <input
        type="range"
        min={least * 100}
        max={most * 100}
        value={percent}
        aria-valuetext={words.percent(percent)}
        onInput={(event) => onSlide(event.currentTarget.valueAsNumber / 100)}
      />
    </label>
  );
}
