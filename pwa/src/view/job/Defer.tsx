/** Leave a job knowingly: for the next service, or for the crew on the road with what is aboard. */

import { useState } from "preact/hooks";
import { OneOf } from "../bits/Chips";
import { FormTitle } from "../bits/FormTitle";
import { ProblemLine } from "../bits/Problem";
import { ReasonField } from "../bits/ReasonField";
import { usePending } from "../bits/usePending";
import { common } from "../words/common";
import { job as words } from "../words/job";
import type { JobPart } from "./part";

export function Defer({ actions, job, onDone }: JobPart) {
  const [to, setTo] = useState<"next-service" | "road">("next-service");
  const [reason, setReason] = useState(words.deferReasons[0] ?? "");
  const { busy, problem, run } = usePending();
  const save = async () => {
    await actions.deferJob(job.job, to, reason.trim());
    onDone();
  };
  return (
    <section class="sheet" aria-labelledby="defer-title">
      <FormTitle id="defer-title" text={words.deferTitle} />
      {job.safety_critical && <p class="warn">{words.deferSafety}</p>}
      <OneOf
        legend={words.deferTo}
        value={to}
        options={[
          { value: "next-service", label: words.deferNext },
          { value: "road", label: words.deferRoad },
        ]}
        onPick={setTo}
      />
      <ReasonField
        legend={words.deferWhy}
        other={common.otherReason}
        usual={words.deferReasons}
        reason={reason}
        onChange={setReason}
      />
      <ProblemLine text={problem} />
      <button type="button" class="button main" aria-disabled={busy} onClick={() => run(save)}>
        {words.deferDo}
      </button>
    </section>
  );
}
