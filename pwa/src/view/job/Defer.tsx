/** Leave a job knowingly: for the next service, or for the crew on the road with what is aboard. */

import { OneOf } from "../bits/Chips";
import { FormTitle } from "../bits/FormTitle";
import { ProblemLine } from "../bits/Problem";
import { ReasonField } from "../bits/ReasonField";
import { useDraft } from "../bits/useDraft";
import { usePending } from "../bits/usePending";
import { Dock } from "../ui/Dock";
import { common } from "../words/common";
import { job as words } from "../words/job";
import type { JobPart } from "./part";

interface Draft {
  to: "next-service" | "road";
  reason: string;
}

export function Defer({ actions, job, onDone }: JobPart) {
  const { draft, change } = useDraft<Draft>({ to: "next-service", reason: words.deferReasons[0] ?? "" });
  const { busy, problem, run } = usePending();
  const save = async () => {
    await actions.deferJob(job.job, draft.to, draft.reason.trim());
    onDone();
  };
  return (
    <section class="sheet" aria-labelledby="defer-title">
      <FormTitle id="defer-title" text={words.deferTitle} />
      {job.safety_critical && <p class="warn">{words.deferSafety}</p>}
      <OneOf
        legend={words.deferTo}
        value={draft.to}
        options={[
          { value: "next-service", label: words.deferNext },
          { value: "road", label: words.deferRoad },
        ]}
        onPick={(to) => change({ to })}
      />
      <ReasonField
        legend={words.deferWhy}
        other={common.otherReason}
        usual={words.deferReasons}
        reason={draft.reason}
        onChange={(reason) => change({ reason })}
      />
      <div class="job-dock">
        <ProblemLine text={problem} />
        <Dock primary={{ children: words.deferDo, busy, onClick: () => run(save) }} />
      </div>
    </section>
  );
}
