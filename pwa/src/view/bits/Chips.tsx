/** Groups of big tappable words: one of several, or any of several. Native radio buttons and tick boxes inside. */

import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import { takeFocus } from "./takeFocus";

interface Option<T extends string> {
  value: T;
  label: string;
}

interface OneOf<T extends string> {
  legend: string;
  options: Option<T>[];
  value: T | null;
  onPick: (value: T) => void;
}

/** One of `options`; `value` null where nothing is chosen yet. */
export function OneOf<T extends string>({ legend, options, value, onPick }: OneOf<T>) {
  const name = useId();
  return (
    <fieldset>
      <legend>{legend}</legend>
      <div class="chips">
        {options.map((option) => (
          <label class="chip" key={option.value}>
            <input type="radio" name={name} checked={option.value === value} onChange={() => onPick(option.value)} />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

interface AnyOf<T extends string> {
  legend: string;
  /** Shown to screen readers only where the heading above says it already. */
  legendUnseen?: boolean;
  options: Option<T>[];
  chosen: T[];
  onToggle: (value: T, on: boolean) => void;
  /** Options that are marked where they stand, and what the mark says. */
  marked?: T[];
  note?: string | undefined;
  /** What stands after the last option. */
  after?: ComponentChildren;
  /** The option that takes the focus when it comes. */
  arriving?: T | undefined;
}

/** Any of `options`, each a tick box; square, so that it does not look like one of several. */
export function AnyOf<T extends string>({
  legend,
  legendUnseen,
  options,
  marked = [],
  note,
  chosen,
  onToggle,
  after,
  arriving,
}: AnyOf<T>) {
  return (
    <fieldset>
      <legend class={legendUnseen ? "unseen" : ""}>{legend}</legend>
      {note !== undefined && <p class="chips-note">{note}</p>}
      <div class="chips square">
        {options.map((option) => (
          <label class={marked.includes(option.value) ? "chip marked" : "chip"} key={option.value}>
            <input
              type="checkbox"
              ref={option.value === arriving ? takeFocus : undefined}
              checked={chosen.includes(option.value)}
              onChange={(event) => onToggle(option.value, event.currentTarget.checked)}
            />
            <span>{option.label}</span>
          </label>
        ))}
        {after}
      </div>
    </fieldset>
  );
}
