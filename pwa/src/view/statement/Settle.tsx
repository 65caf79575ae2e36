/** What became of a line of an issued statement: agreed, disputed, withdrawn. */

import { type LineStanding, STANDINGS } from "../../report/statement";
import { useDraft } from "../bits/useDraft";
import { useOpen } from "../bits/useOpen";
import { usePending } from "../bits/usePending";
import { statement as words } from "../words/statement";
import type { BillProps } from "./bill";
import { LineForm } from "./LineForm";

export function Settle({ statement, line, actions }: BillProps & { statement: string; line: string }) {
  const form = useOpen();
  const { draft, change } = useDraft<{ standing: LineStanding; reason: string }>({ standing: "agreed", reason: "" });
  const { busy, problem, run } = usePending();
  const save = () => {
    const reason = draft.reason.trim();
    const missing = draft.standing !== "agreed" && !reason ? words.needReason : null;
    run(async () => {
      await actions.settleLine(statement, line, draft.standing, reason);
      form.close();
    }, missing);
  };
  return (
    <LineForm
      form={form}
      begin={words.settle}
      legend={words.settleTitle}
      options={STANDINGS}
      named={(standing) => words.standing[standing] ?? standing}
      value={draft.standing}
      onPick={(standing) => change({ standing })}
      reason={draft.reason}
      onReason={(reason) => change({ reason })}
      problem={problem}
      busy={busy}
      save={words.settleSave}
      onSave={save}
    />
  );
}
