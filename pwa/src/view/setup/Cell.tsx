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
  // Only while it is being typed in does a cell show anything but the draft.
  const [typed, setTyped] = useState<string | null>(null);
  useEffect(() => {
    if (typed !== null && typed.trim() !== value) setTyped(null);
  }, [value]);
  useEffect(() => {
    if (typed === null || typed.trim() === value) return;
    const timer = setTimeout(() => onCommit(typed), PAUSE_MS);
    return () => clearTimeout(timer);
  }, [typed, value]);
  const told = `${id}-fault`;
  return (
    <>
      <input
        type="text"
        id={id}
        value={typed ?? value}
        list={list}
        readOnly={readOnly}
        inputMode={inputMode}
        autocomplete="off"
        spellcheck={false}
        aria-label={labelled ? undefined : label}
        aria-invalid={fault !== null}
        aria-describedby={fault ? told : undefined}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onChange={(event) => {
          if (event.currentTarget.value !== value) onCommit(event.currentTarget.value);
        }}
        onBlur={() => setTyped(null)}
      />
      {fault && (
        <p id={told} class="cell-fault">
          {fault.what}
        </p>
      )}
    </>
  );
}
