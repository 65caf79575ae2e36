/** A number changed by large buttons or by arrow keys, never by the phone's keyboard. */

import type { TargetedKeyboardEvent } from "preact";
import { useId } from "preact/hooks";
import "./choice.css";
import { Icon } from "./Icon";
import { stepTo, stepOfKey } from "./stepping";

interface StepperProps {
  label: string;
  value: number;
  least?: number;
  most?: number;
  step?: number;
  /** What Page up and Page down change it by; ten steps where nothing is said. */
  largeStep?: number;
  /** The value as it is shown and spoken, with its unit. */
  text: string;
  words: { less: string; more: string };
  onChange: (value: number) => void;
}

/** The value takes the focus and speaks; at an end of its range the button there can't be pressed. */
export function Stepper(props: StepperProps) {
  const { label, value, least = Number.NEGATIVE_INFINITY, most = Number.POSITIVE_INFINITY, step = 1 } = props;
  const id = useId();
  const range = { least, most, step };
  const change = (by: number) => {
    const next = stepTo(value, by, range);
    if (next !== value) props.onChange(next);
  };
  const press = (event: TargetedKeyboardEvent<HTMLElement>) => {
    const by = stepOfKey(event.key, value, { ...range, largeStep: props.largeStep ?? step * 10 });
    if (by === null) return;
    event.preventDefault();
    change(by);
  };
  // The keys do what the buttons do: a stop at each of them would only be in the way.
  const button = (by: number, name: string, icon: "add" | "less") => (
    <button
      type="button"
      tabIndex={-1}
      aria-label={name}
      aria-disabled={stepTo(value, by, range) === value || undefined}
      onClick={() => change(by)}
    >
      <Icon name={icon} />
    </button>
  );
  return (
    <div class="ui-stepper">
      <span class="ui-legend" id={id}>
        {label}
      </span>
      <div class="ui-stepper-row">
        {button(-step, props.words.less, "less")}
        <span
          role="spinbutton"
          tabIndex={0}
          aria-labelledby={id}
          aria-valuenow={value}
          aria-valuemin={Number.isFinite(least) ? least : undefined}
          aria-valuemax={Number.isFinite(most) ? most : undefined}
          aria-valuetext={props.text}
          onKeyDown={press}
        >
          {props.text}
        </span>
        {button(step, props.words.more, "add")}
      </div>
    </div>
  );
}
