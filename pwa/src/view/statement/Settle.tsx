/** What became of a line of an issued statement: agreed, disputed, withdrawn. */

import { type LineStanding, STANDINGS } from "../../report/statement";
import { OneOf } from "../bits/Chips";
import { useDraft } from "../bits/useDraft";
import { useOpen } from "../bits/useOpen";
import { usePending } from "../bits/usePending";
import { statement as words } from "../words/statement";
import type { BillProps } from "./bill";
import { SaveOrLeave } from "./SaveOrLeave";

export function Settle({ statement, line, actions }: BillProps & { statement: string; line: string }) {
  const form = useOpen();
  const { draft, change } = useDraft<{ standing: LineStanding; reason: string }>({ standing: "agreed", reason: "" });
  const { busy, problem, run } = usePending();
  if (!form.isOpen) {
    return (
      <button type="button" class="button" onClick={form.open}>
        {words.settle}
      </button>
    );
  }
  const save = () => {
    const reason = draft.reason.trim();
    const missing = draft.standing !== "agreed" && !reason ? words.needReason : null;
    run(async () => {
      await actions.settleLine(statement, line, draft.standing, reason);
      form.close();
    }, missing);
  };
  return (
    <div class="stack decide">
      <OneOf
        legend={words.settleTitle}
        value={draft.standing}
        options={STANDINGS.map((value) => ({ value, label: words.standing[value] ?? value }))}
        onPick={(standing) => change({ standing })}
      />
      <SaveOrLeave
        reason={draft.reason}
        onReason={(reason) => change({ reason })}
        problem={problem}
        busy={busy}
        save={words.settleSave}
        onSave={save}
        onLeave={form.close}
      />
    </div>
  );
}
