/** What became of a line of an issued statement: agreed, disputed, withdrawn. */

import { useState } from "preact/hooks";
import { type LineStanding, STANDINGS } from "../../report/statement";
import { OneOf } from "../bits/Chips";
import { usePending } from "../bits/usePending";
import { statement as words } from "../words/statement";
import type { BillProps } from "./bill";
import { SaveOrLeave } from "./SaveOrLeave";

export function Settle({ statement, line, actions }: BillProps & { statement: string; line: string }) {
  const [open, setOpen] = useState(false);
  const [standing, setStanding] = useState<LineStanding>("agreed");
  const [reason, setReason] = useState("");
  const [missing, setMissing] = useState<string | null>(null);
  const { busy, problem, run } = usePending();
  if (!open) {
    return (
      <button type="button" class="button" onClick={() => setOpen(true)}>
        {words.settle}
      </button>
    );
  }
  const save = () => {
    const wantsReason = standing !== "agreed" && !reason.trim();
    setMissing(wantsReason ? words.needReason : null);
    if (wantsReason) return;
    run(async () => {
      await actions.settleLine(statement, line, standing, reason.trim());
      setOpen(false);
    });
  };
  return (
    <div class="stack decide">
      <OneOf
        legend={words.settleTitle}
        value={standing}
        options={STANDINGS.map((value) => ({ value, label: words.standing[value] ?? value }))}
        onPick={setStanding}
      />
      <SaveOrLeave
        reason={reason}
        onReason={setReason}
        problem={missing ?? problem}
        busy={busy}
        save={words.settleSave}
        onSave={save}
        onLeave={() => setOpen(false)}
      />
    </div>
  );
}
