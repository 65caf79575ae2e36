/** The faults of a draft, each leading to its cell. */

import type { Fault } from "../../setup/faults";
import { setup as words } from "../words/setup";
import type { Editing } from "./useSetup";

interface FaultListProps {
  editing: Editing;
  faults: Fault[];
  onPick: (fault: Fault) => void;
}

export function FaultList({ editing, faults, onPick }: FaultListProps) {
  if (faults.length === 0) return null;
  return (
    <section class="sheet" aria-labelledby="faults-title">
      <h2 id="faults-title">{words.faults(faults.length)}</h2>
      <p class="soft">{words.faultsHow}</p>
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
