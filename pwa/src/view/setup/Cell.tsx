/** One cell that can be typed in; a fault in it is marked and said. */

import { useEffect, useState } from "preact/hooks";
import type { Fault } from "../../setup/faults";

export interface CellProps {
  id: string;
  label: string;
  value: string;
  fault: Fault | null;
  /** The id of a list of suggestions, or none. */
  list?: string;
  readOnly?: boolean;
  /** Whether `label` stands beside it already. */
  labelled?: boolean;
  inputMode?: "decimal" | "text";
  onCommit: (text: string) => void;
}

const PAUSE_MS = 600;

/** What is typed goes to the draft when the cell is left, or after a pause. */
export function Cell({ id, label, value, fault, list, readOnly, labelled, inputMode, onCommit }: CellProps) {
  const [text, setText] = useState(value);
  useEffect(() => setText(value), [value]);
  useEffect(() => {
    if (text === value) return;
    const timer = setTimeout(() => onCommit(text), PAUSE_MS);
    return () => clearTimeout(timer);
  }, [text, value]);
  const told = `${id}-fault`;
  return (
    <>
      <input
        type="text"
        id={id}
        value={text}
        list={list}
        readOnly={readOnly}
        inputMode={inputMode}
        autocomplete="off"
        spellcheck={false}
        aria-label={labelled ? undefined : label}
        aria-invalid={fault !== null}
        aria-describedby={fault ? told : undefined}
        onInput={(event) => setText(event.currentTarget.value)}
        onChange={(event) => {
          if (event.currentTarget.value !== value) onCommit(event.currentTarget.value);
        }}
      />
      {fault && (
        <p id={told} class="cell-fault">
          {fault.what}
        </p>
      )}
    </>
  );
}
