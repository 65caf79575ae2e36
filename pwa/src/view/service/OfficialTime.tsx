/** The time on the officials' clock: it starts with now and is stepped, so that nobody types at a control. */

import { Stepper } from "../bits/Stepper";
import { service as words } from "../words/service";
import { clockFor, minutesOf } from "./clock";

interface OfficialTime {
  label: string;
  clock: string;
  onChange: (clock: string) => void;
}

export function OfficialTime({ label, clock, onChange }: OfficialTime) {
  return (
    <div>
      <span class="label">{label}</span>
      <Stepper
        label={label}
        shown={clock}
        steps={[-10, -1, 1, 10].map((by) => ({ by, label: by > 0 ? `+${by}` : `−${-by}` }))}
        onStep={(by) => onChange(clockFor(minutesOf(clock) + by))}
      />
      <p class="soft">{words.stepNote}</p>
    </div>
  );
}
