/** A value that is typed or chosen, with its label, its unit, what it means, and what is wrong with it. */

import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import "./field.css";
import { Icon } from "./Icon";

export interface FieldProps {
  label: string;
  /** What it is for, where the label does not say. */
  hint?: string;
  /** What is wrong with it and what to do; nothing where it is right. */
  problem?: string | null;
  /** Beside the value: *EUR*, *min*, *%*. */
  unit?: string;
}

/** What a control takes so that a screen reader says label, unit, hint and problem with it. */
interface Wiring {
  id: string;
  "aria-describedby": string | undefined;
  "aria-invalid": true | undefined;
}

interface FrameProps extends FieldProps {
  children: (wiring: Wiring) => ComponentChildren;
}

/** The frame around a control of any kind. */
export function Field({ label, hint, problem, unit, children }: FrameProps) {
  const id = useId();
  const described = [unit && `${id}-unit`, hint && `${id}-hint`, problem && `${id}-problem`].filter(Boolean).join(" ");
  return (
    <div class={problem ? "ui-field is-wrong" : "ui-field"}>
      <label for={id}>{label}</label>
      <div class="ui-field-box">
        {children({ id, "aria-describedby": described || undefined, "aria-invalid": problem ? true : undefined })}
        {unit && (
          <span class="ui-field-unit" id={`${id}-unit`}>
            {unit}
          </span>
        )}
      </div>
      {hint && (
        <p class="ui-field-hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {problem && (
        <p class="ui-field-problem" id={`${id}-problem`}>
          <Icon name="caution" size={16} />
          <span>{problem}</span>
        </p>
      )}
    </div>
  );
}

interface TextProps extends FieldProps {
  value: string;
  onInput: (text: string) => void;
  /** When the field is left. */
  onLeave?: () => void;
  inputMode?: "text" | "decimal" | "numeric";
  autocomplete?: "on" | "off";
  disabled?: boolean;
  /** As lines of text rather than one. */
  lines?: number;
}

/** Text or a number. */
export function TextField({ value, onInput, onLeave, inputMode, autocomplete, disabled, lines, ...field }: TextProps) {
  const shared = { value, disabled, onBlur: onLeave };
  return (
    <Field {...field}>
      {(wiring) =>
        lines ? (
          <textarea {...wiring} {...shared} rows={lines} onInput={(event) => onInput(event.currentTarget.value)} />
        ) : (
          <input
            {...wiring}
            {...shared}
            type="text"
            inputMode={inputMode}
            autocomplete={autocomplete}
            onInput={(event) => onInput(event.currentTarget.value)}
          />
        )
      }
    </Field>
  );
}

interface SelectProps extends FieldProps {
  value: string;
  options: readonly { value: string; label: string }[];
  onChange: (value: string) => void;
}

/** One of many, from the phone's own list. */
export function SelectField({ value, options, onChange, ...field }: SelectProps) {
  return (
    <Field {...field}>
      {(wiring) => (
        <select {...wiring} value={value} onChange={(event) => onChange(event.currentTarget.value)}>
          {options.map((one) => (
            <option key={one.value} value={one.value}>
              {one.label}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}
