/** A number changed by big buttons, never by the phone's keyboard. */

import { useState } from "preact/hooks";
import { common } from "../words/common";

interface Stepper {
  label: string;
  /** What stands between the buttons. */
  shown: string;
  steps: { by: number; label: string }[];
  onStep: (by: number) => void;
}

/** Minus steps left of the value, plus steps right of it; each button says what it changes. */
export function Stepper({ label, shown, steps, onStep }: Stepper) {
  // A form that opens would speak each of its bare numbers otherwise.
  const [stepped, setStepped] = useState(false);
  const button = (step: { by: number; label: string }) => (
    <button
      key={step.by}
      type="button"
      class="button"
      aria-label={common.by(label, step.label)}
      onClick={() => {
        setStepped(true);
        onStep(step.by);
      }}
    >
      {step.label}
    </button>
  );
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset's legend cannot stand in the row.
    <div class="stepper" role="group" aria-label={label}>
      {steps.filter((step) => step.by < 0).map(button)}
      <output aria-live={stepped ? "polite" : "off"}>{shown}</output>
      {steps.filter((step) => step.by > 0).map(button)}
    </div>
  );
}
