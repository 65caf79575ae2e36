/** What became of a line of an issued statement: agreed, disputed, withdrawn. */

import { useState } from "preact/hooks";
import { type LineStanding, STANDINGS } from "../../report/statement";
import { OneOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { statement as words } from "../words/statement";
import type { BillProps } from "./bill";

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
      <label>
        <span class="label">{words.reason}</span>
        <input type="text" value={reason} maxLength={500} onInput={(event) => setReason(event.currentTarget.value)} />
      </label>
      <ProblemLine text={missing ?? problem} />
      <div class="row even">
        <button type="button" class="button main" disabled={busy} onClick={save}>
          {words.settleSave}
        </button>
        <button type="button" class="button quiet" onClick={() => setOpen(false)}>
          {words.cancel}
        </button>
      </div>
    </div>
  );
}
