/** Choosing: one of a few side by side, one or several of many, and what is chosen with a way to take it out. */

import { useId } from "preact/hooks";
import "./choice.css";
import { Icon } from "./Icon";
import type { IconName } from "./icons";

export interface Option<V extends string> {
  value: V;
  label: string;
  icon?: IconName;
}

interface SegmentedProps<V extends string> {
  /** What is chosen here; `quiet`: for screen readers alone. */
  legend: string;
  quiet?: boolean;
  options: readonly Option<V>[];
  /** Nothing chosen yet: null. */
  value: V | null;
  onChange: (value: V) => void;
}

/** Two to four short words of which one is so. Radio buttons: arrow keys move the choice, Tab goes past it. */
export function Segmented<V extends string>({ legend, quiet, options, value, onChange }: SegmentedProps<V>) {
  const name = useId();
  return (
    <fieldset class="ui-choice">
      <legend class={quiet ? "unseen" : "ui-legend"}>{legend}</legend>
      <div class="ui-segmented">
        {options.map((one) => (
          <label key={one.value}>
            <input type="radio" name={name} checked={one.value === value} onChange={() => onChange(one.value)} />
            <span class="ui-segment">
              {one.icon && <Icon name={one.icon} size={20} />}
              {one.label}
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

interface ChipsProps<V extends string> extends Omit<SegmentedProps<V>, "value" | "onChange"> {
  chosen: readonly V[];
  /** Several may be chosen; else a tap on another one moves the choice. */
  several?: boolean;
  /** As squares of one width, for a few short words. */
  even?: boolean;
  /** `on`: chosen now. */
  onToggle: (value: V, on: boolean) => void;
}

/** Words of which one or several are so. What is chosen has a tick. */
export function Chips<V extends string>(props: ChipsProps<V>) {
  const { legend, quiet, options, chosen, several, even, onToggle } = props;
  const name = useId();
  return (
    <fieldset class="ui-choice">
      <legend class={quiet ? "unseen" : "ui-legend"}>{legend}</legend>
      <div class={even ? "ui-chips is-even" : "ui-chips"}>
        {options.map((one) => (
          <label key={one.value} class="ui-chip">
            <input
              type={several ? "checkbox" : "radio"}
              name={name}
              checked={chosen.includes(one.value)}
              onChange={(event) => onToggle(one.value, event.currentTarget.checked)}
            />
            <span class="ui-chip-face">
              {chosen.includes(one.value) ? (
                <Icon name="check" size={16} />
              ) : (
                one.icon && <Icon name={one.icon} size={16} />
              )}
              {one.label}
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
