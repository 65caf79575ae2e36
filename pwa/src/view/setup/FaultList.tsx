/** The faults of a draft, or what is taken and deserves to be told, each leading to its cell. */

import type { Fault } from "../../setup/faults";
import { setup as words } from "../words/setup";
import type { Editing } from "./useSetup";

interface FaultListProps {
  editing: Editing;
  faults: Fault[];
  /** They do not keep the draft from coming in force. */
  taken?: boolean;
  onPick: (fault: Fault) => void;
}

export function FaultList({ editing, faults, taken, onPick }: FaultListProps) {
  if (faults.length === 0) return null;
  const id = taken ? "warnings-title" : "faults-title";
  return (
    <section class="sheet" aria-labelledby={id}>
      <h2 id={id}>{taken ? words.warnings(faults.length) : words.faults(faults.length)}</h2>
      <p class="soft">{taken ? words.warningsHow : words.faultsHow}</p>
      <ul class="faults">
        {faults.map((fault) => (
          <li key={`${fault.table} ${fault.id} ${fault.column} ${fault.what}`}>
            {fault.table === null ? (
              <p>
                <span class="strong">{words.wholeFile(fault.file)}</span>: {fault.what}
              </p>
            ) : (
              <button type="button" class="button fault" onClick={() => onPick(fault)}>
                <span>
                  <span class="strong">{placeOf(editing, fault)}</span>: {fault.what}
                </span>
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

function placeOf({ book }: Editing, { table, id, column }: Fault): string {
  const rows = book.tables[table ?? ""]?.rows ?? [];
  const at = id === null || rows.length === 1 ? -1 : rows.findIndex((row) => row.id === id);
  return words.place(words.table[table ?? ""] ?? "", at < 0 ? null : at + 1, words.column(column));
}
