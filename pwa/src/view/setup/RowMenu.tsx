/** What can be done with a whole row. */

import type { Fault } from "../../setup/faults";
import { setup as words } from "../words/setup";

interface RowMenuProps {
  span: number;
  fault: Fault | null;
  onMove: (by: -1 | 1) => void;
  onAdd: () => void;
  onTakeOut: () => void;
}

export function RowMenu({ span, fault, onMove, onAdd, onTakeOut }: RowMenuProps) {
  return (
    <tr class="menu">
      <td colSpan={span}>
        <div class="row">
          <button type="button" class="button" onClick={() => onMove(-1)}>
            {words.up}
          </button>
          <button type="button" class="button" onClick={() => onMove(1)}>
            {words.down}
          </button>
          <button type="button" class="button" onClick={onAdd}>
            {words.addBelow}
          </button>
          <button type="button" class="button" onClick={onTakeOut}>
            {words.takeOut}
          </button>
          {fault && <span class="cell-fault">{fault.what}</span>}
        </div>
      </td>
    </tr>
  );
}
