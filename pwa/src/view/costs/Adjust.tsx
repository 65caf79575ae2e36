/** The manager corrects a line: an amount before tax, and why. */

import type { Costs, EventSetup } from "../../kit/api";
import { amountOf } from "../../kit/money";
import type { Actions } from "../../flow/model";
import { ProblemLine } from "../bits/Problem";
import { useDraft } from "../bits/useDraft";
import { usePending } from "../bits/usePending";
import { jobLabel } from "../labels";
import { common } from "../words/common";
import { costs as words } from "../words/costs";

interface AdjustProps {
  costs: Costs;
  setup: EventSetup;
  adjustCost: Actions["adjustCost"];
}

export function Adjust({ costs, setup, adjustCost }: AdjustProps) {
  const { draft, change } = useDraft({ job: "", amount: "", reason: "" });
  const { job, amount, reason } = draft;
  const { busy, problem, run } = usePending();
  const jobs = [
    ...new Set(costs.lines.flatMap((line) => (line.job === null || line.kind === "access" ? [] : [line.job]))),
  ];
  const add = () => {
    const typed = amountOf(amount);
    const missing = !job ? words.needLine : typed === null ? words.badAmount : reason.trim() ? null : words.needReason;
    run(async () => {
      await adjustCost(job, typed ?? "", reason.trim());
      change({ amount: "", reason: "" });
    }, missing);
  };
  return (
    <section class="sheet" aria-labelledby="adjust-title">
      <h2 id="adjust-title">{words.adjust}</h2>
      <label>
        <span class="label">{words.job}</span>
        <select value={job} onChange={(event) => change({ job: event.currentTarget.value })}>
          <option value="">{common.choose}</option>
          {jobs.map((key) => (
            <option key={key} value={key}>
              {jobLabel(setup.car_map, key)}
            </option>
          ))}
        </select>
      </label>
      <label>
        <span class="label">{words.amount(costs.currency)}</span>
        <input type="text" value={amount} onInput={(event) => change({ amount: event.currentTarget.value })} />
      </label>
      <label>
        <span class="label">{words.reason}</span>
        <input
          type="text"
          value={reason}
          maxLength={500}
          onInput={(event) => change({ reason: event.currentTarget.value })}
        />
      </label>
      <ProblemLine text={problem} />
      <button type="button" class="button main" disabled={busy} onClick={add}>
        {words.adjustDo}
      </button>
    </section>
  );
}
