/** What a manager says of a line: a button that opens it, one of several words, what else it takes, why, save or leave. */

import type { ComponentChildren } from "preact";
import { OneOf } from "../bits/Chips";
import type { Opening } from "../bits/useOpen";
import { SaveOrLeave } from "./SaveOrLeave";

interface LineFormProps<T extends string> {
  form: Opening;
  /** The button that opens it. */
  begin: string;
  legend: string;
  options: readonly T[];
  /** What an option is called. */
  named: (option: T) => string;
  value: T;
  onPick: (value: T) => void;
  reason: string;
  onReason: (reason: string) => void;
  problem: string | null;
  busy: boolean;
  save: string;
  onSave: () => void;
  children?: ComponentChildren;
}

export function LineForm<T extends string>({
  form,
  begin,
  legend,
  options,
  named,
  children,
  ...said
}: LineFormProps<T>) {
  if (!form.isOpen) {
    return (
      <button type="button" class="button" onClick={form.open}>
        {begin}
      </button>
    );
  }
  const { value, onPick, ...rest } = said;
  return (
    <div class="stack decide">
      <OneOf
        legend={legend}
        value={value}
        options={options.map((option) => ({ value: option, label: named(option) }))}
        onPick={onPick}
      />
      {children}
      <SaveOrLeave {...rest} onLeave={form.close} />
    </div>
  );
}
