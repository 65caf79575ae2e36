/** Why somebody does something: usual reasons to tap, or own words. */

import { OneOf } from "./Chips";

interface ReasonField {
  legend: string;
  other: string;
  usual: string[];
  reason: string;
  onChange: (reason: string) => void;
}

export function ReasonField({ legend, other, usual, reason, onChange }: ReasonField) {
  return (
    <div class="stack">
      <OneOf
        legend={legend}
        value={usual.includes(reason) ? reason : null}
        options={usual.map((value) => ({ value, label: value }))}
        onPick={onChange}
      />
      <label>
        <span class="label">{other}</span>
        <input
          type="text"
          value={usual.includes(reason) ? "" : reason}
          maxLength={500}
          onInput={(event) => onChange(event.currentTarget.value)}
        />
      </label>
    </div>
  );
}
