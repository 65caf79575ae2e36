/** Takes a report back, with a reason; it stays in the history. */

import { useState } from "preact/hooks";
import { ProblemLine } from "../bits/Problem";
import { ReasonField } from "../bits/ReasonField";
import { usePending } from "../bits/usePending";
import { reports as words } from "../words/reports";

export function Withdraw({ onWithdraw }: { onWithdraw: (reason: string) => Promise<void> }) {
  const [reason, setReason] = useState(words.reasons[0] ?? "");
  const { busy, problem, run } = usePending();
  return (
    <div class="stack">
      <ReasonField
        legend={words.withdrawWhy}
        other={words.reasonOther}
        usual={words.reasons}
        reason={reason}
        onChange={setReason}
      />
      <p class="soft">{words.withdrawNote}</p>
      <ProblemLine text={problem} />
      <button type="button" class="button main" disabled={busy} onClick={() => run(() => onWithdraw(reason.trim()))}>
        {words.withdrawDo}
      </button>
    </div>
  );
}
