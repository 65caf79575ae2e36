/** One kind of reading with all its places: steppers, levels or fields, each with what was read last. */

import type { EventSetup } from "../../kit/api";
import { decimal } from "../../kit/language";
import { lastReading, type Reading, type ReadingKind, type ReadingName } from "../../report/readings";
import { CORNERS, type Corner, LEVELS } from "../../report/walk_list";
import { OneOf } from "../bits/Chips";
import { Stepper } from "../bits/Stepper";
import { personName, timeOf } from "../labels";
import { readings as words } from "../words/readings";
import { asLast, keyOf, stepped, type Taken, valueAt, with_ } from "./taken";

interface OneReadingProps {
  setup: EventSetup;
  readings: Reading[];
  taken: Taken;
  change: (next: Taken) => void;
  kind: ReadingKind;
}

export function OneReading(props: OneReadingProps) {
  const { kind, readings, taken, change } = props;
  const name = words.reading[kind.reading as ReadingName];
  if (kind.input.how === "level") return <LevelOf {...props} name={name} />;
  const many = kind.places.length > 1;
  const known = kind.places.some((place) => lastReading(readings, kind.reading, place) !== null);
  return (
    <section class="sheet" aria-label={name}>
      <div class="reading-head">
        <h3>{kind.unit === "" ? name : `${name}, ${kind.unit}`}</h3>
        {many && known && (
          <button
            type="button"
            class="button"
            aria-label={words.asLast(name)}
            onClick={() => change(asLast(taken, readings, kind))}
          >
            {words.asLastShort}
          </button>
        )}
      </div>
      {kind.places.map((place) => (
        <Value key={place ?? ""} {...props} name={name} place={place} />
      ))}
    </section>
  );
}

type Named = OneReadingProps & { name: string };

const cornerOf = (place: string | null): string =>
  (CORNERS as readonly (string | null)[]).includes(place) ? words.corner[place as Corner] : "";

/** "2.05" as exact as the steps are. */
function shownOf(kind: ReadingKind, value: number | string | null): string {
  if (value === null) return "–";
  return typeof value === "number" && kind.input.how === "stepped"
    ? decimal(value, kind.input.decimals)
    : String(value);
}

function Value({ kind, readings, taken, change, name, place }: Named & { place: string | null }) {
  const last = lastReading(readings, kind.reading, place);
  const value = valueAt(taken, readings, kind, place);
  const touched = taken[keyOf(kind.reading, place)] !== undefined;
  const corner = cornerOf(place);
  const label = corner === "" ? name : `${name}, ${corner}`;
  const isAdded = kind.input.how === "stepped" && kind.input.added;
  const was = last && !isAdded ? words.lastShort(shownOf(kind, last.value)) : "";
  if (kind.input.how === "written") {
    const { longest, digits } = kind.input;
    const read = (text: string) => (digits ? Number(text.replace(/\D/g, "")) || "" : text);
    return (
      <label>
        <span class="label">
          {corner} <span class="soft">{was}</span>
        </span>
        <input
          type="text"
          autocomplete="off"
          value={touched ? String(value) : ""}
          inputMode={digits ? "numeric" : "text"}
          maxLength={longest}
          aria-label={label}
          onInput={(event) => change(with_(taken, kind, place, read(event.currentTarget.value)))}
        />
      </label>
    );
  }
  if (kind.input.how === "level") return null;
  const by = (step: number) => (step > 0 ? `+${step}` : `−${-step}`);
  return (
    <div class={touched ? "reading touched" : "reading"}>
      <span>
        {corner} <span class="soft">{was}</span>
      </span>
      <Stepper
        label={label}
        shown={shownOf(kind, value)}
        steps={kind.input.steps.map((step) => ({ by: step, label: by(step) }))}
        onStep={(step) => change(stepped(taken, readings, kind, place, step))}
      />
    </div>
  );
}

function LevelOf({ setup, kind, readings, taken, change, name }: Named) {
  const place = kind.places[0] ?? null;
  const last = lastReading(readings, kind.reading, place);
  const touched = taken[keyOf(kind.reading, place)];
  const said = (value: number | string) => words.level[value as keyof typeof words.level] ?? String(value);
  return (
    <section class="sheet levels" aria-label={name}>
      <OneOf
        legend={name}
        value={LEVELS.find((one) => one === touched) ?? null}
        options={LEVELS.map((value) => ({ value, label: words.level[value] }))}
        onPick={(value) => change(with_(taken, kind, place, value))}
      />
      <p class="soft">
        {last
          ? words.last(said(last.value).toLowerCase(), timeOf(setup, last.at), personName(setup, last.person))
          : words.never}
        . {words.readFirst}
      </p>
    </section>
  );
}
