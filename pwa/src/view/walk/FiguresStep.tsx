/** Figures of the walk: odometer, fuel, tread and pads at each corner, fluids. */

import { useState } from "preact/hooks";
import { decimal } from "../../kit/language";
import { entriesOf } from "../../report/lists";
import { lastReading, readingsOf } from "../../report/readings";
import type { WalkDraft } from "../../report/walk_draft";
import { CORNERS, type Corner, FLUIDS, LEVELS } from "../../report/walk_list";
import { OneOf } from "../bits/Chips";
import { Stepper } from "../bits/Stepper";
import { walk as words } from "../words/walk";
import type { AtStep } from "./atStep";

export function FiguresStep(props: AtStep) {
  return (
    <>
      <Odometer {...props} />
      <Fuel {...props} />
      <Depths {...props} what="tread" />
      <Depths {...props} what="pads" />
      <Fluids {...props} />
    </>
  );
}

function Odometer({ draft, out, change }: AtStep) {
  const [typed, setTyped] = useState(draft.odometer_km === null ? "" : String(draft.odometer_km));
  const isWrong = typed.trim() !== "" && kmOf(typed) === null;
  const before = Number(out?.data.odometer_km ?? 0);
  const isLess = kmOf(typed) !== null && Number(kmOf(typed)) < before;
  const keep = () => {
    if (kmOf(typed) !== draft.odometer_km) change({ ...draft, odometer_km: kmOf(typed) }, words.odometer);
  };
  return (
    <label>
      <span class="label">{words.odometer}</span>
      <input
        type="text"
        inputMode="numeric"
        autocomplete="off"
        value={typed}
        maxLength={9}
        aria-invalid={isWrong}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onChange={keep}
      />
      {isWrong && <span class="warn">{words.odometerWrong}</span>}
      {isLess && <span class="warn">{words.odometerLess(String(before))}</span>}
    </label>
  );
}

/** "18 342" and "18.342" are 18342: people group digits as they like. */
function kmOf(typed: string): number | null {
  const digits = typed.replaceAll(/[\s.,'’]/g, "");
  return /^\d{1,7}$/.test(digits) ? Number(digits) : null;
}

function Fuel({ draft, change }: AtStep) {
  const percent = draft.fuel_percent;
  const eighth = percent === null ? null : String(Math.round(percent / 12.5));
  const put = (next: number) =>
    change({ ...draft, fuel_percent: Math.min(100, Math.max(0, Math.round(next))) }, words.fuel);
  return (
    <div class="stack">
      <OneOf
        legend={words.fuel}
        value={eighth}
        options={words.eighths.map((label, at) => ({ value: String(at), label }))}
        onPick={(value) => put(Number(value) * 12.5)}
      />
      <Stepper
        label={words.fuelExact}
        shown={percent === null ? "–" : words.percent(percent)}
        steps={[-5, -1, 1, 5].map((by) => ({ by, label: by > 0 ? `+${by}` : `−${-by}` }))}
        onStep={(by) => put((percent ?? 50) + (percent === null ? 0 : by))}
      />
    </div>
  );
}

/** What the first tap shows where nothing was read before: usual of a new tyre and pad. Common practice, no source. */
const START_MM = { tread: 6, pads: 10 };
const STEPS_MM = [-1, -0.5, 0.5, 1];
const MOST_MM = 30;

function Depths({ state, car, draft, change, what }: AtStep & { what: "tread" | "pads" }) {
  const entries = entriesOf(state.entries);
  const readings = readingsOf(entries, car);
  const reading = what === "tread" ? "tread" : "brake pad";
  const before = (place: Corner) => Number(lastReading(readings, reading, place)?.value ?? Number.NaN);
  const step = (place: Corner, by: number) => {
    const now = draft[what][place];
    const start = Number.isNaN(before(place)) ? START_MM[what] : before(place);
    const next = now === undefined ? start : Math.min(MOST_MM, Math.max(0, now + by));
    change(
      { ...draft, [what]: { ...draft[what], [place]: next } } satisfies WalkDraft,
      `${words[what]}, ${words.corner[place]}`,
    );
  };
  return (
    <fieldset class="stack">
      <legend>{words[what]}</legend>
      {CORNERS.map((place) => {
        const now = draft[what][place];
        return (
          <div key={place} class="walk-depth">
            <span>
              {words.corner[place]}
              {!Number.isNaN(before(place)) && <span class="soft"> {words.mmWas(before(place))}</span>}
            </span>
            <Stepper
              label={`${words[what]}, ${words.corner[place]}`}
              shown={now === undefined ? "–" : decimal(now, 1)}
              steps={STEPS_MM.map((by) => ({ by, label: by > 0 ? `+${by}` : `−${-by}` }))}
              onStep={(by) => step(place, by)}
            />
          </div>
        );
      })}
    </fieldset>
  );
}

function Fluids({ draft, change }: AtStep) {
  return (
    <div class="stack walk-fluids">
      {FLUIDS.map((fluid) => (
        <OneOf
          key={fluid}
          legend={words.fluid[fluid]}
          value={draft.fluids[fluid] ?? null}
          options={LEVELS.map((value) => ({ value, label: words.level[value] }))}
          onPick={(value) => change({ ...draft, fluids: { ...draft.fluids, [fluid]: value } }, words.fluid[fluid])}
        />
      ))}
    </div>
  );
}
