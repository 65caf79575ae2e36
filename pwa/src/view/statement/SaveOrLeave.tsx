/** Why, and the two buttons at the end of what a manager says of a line. */

import { ProblemLine } from "../bits/Problem";
import { statement as words } from "../words/statement";

interface SaveOrLeaveProps {
  reason: string;
  onReason: (reason: string) => void;
  problem: string | null;
  busy: boolean;
  save: string;
  onSave: () => void;
  onLeave: () => void;
}

export function SaveOrLeave({ reason, onReason, problem, busy, save, onSave, onLeave }: SaveOrLeaveProps) {
  return (
    <>
      <label>
        <span class="label">{words.reason}</span>
        <input type="text" value={reason} maxLength={500} onInput={(event) => onReason(event.currentTarget.value)} />
      </label>
      <ProblemLine text={problem} />
      <div class="row even">
        <button type="button" class="button main" disabled={busy} onClick={onSave}>
          {save}
        </button>
        <button type="button" class="button quiet" onClick={onLeave}>
          {words.cancel}
        </button>
      </div>
    </>
  );
}
