/** Finish a job: what was done, how long, with what, by whom, for good or for now. */

import { useState } from "preact/hooks";
import type { EntryOf, EventSetup, Job } from "../../kit/api";
import type { Finish as FinishFacts } from "../../flow/model";
import { AnyOf, OneOf } from "../bits/Chips";
import { FormTitle } from "../bits/FormTitle";
import { ProblemLine } from "../bits/Problem";
import { Stepper } from "../bits/Stepper";
import { usePending } from "../bits/usePending";
import { partName } from "../queue/partName";
import { job as words } from "../words/job";
import { NoWork, shutOf } from "../service/NoWork";
import { Dock } from "../ui/Dock";
import { queue } from "../words/queue";
import { PartSearch } from "./PartSearch";
import { hands, type JobPart, minutesSince } from "./part";

function begin(job: Job, starts: EntryOf<"job.started">[], person: string, now: number): FinishFacts {
  const minutes = minutesSince(starts, now);
  const parts = job.estimate.parts.map(({ part, qty }) => ({ part, qty }));
  const repairers = [...new Set([...starts.map((start) => start.person), ...(starts.length > 0 ? [] : [person])])];
  const action = job.action === "inspect" || job.action === "assess" ? "repair" : job.action;
  return {
    action,
    minutes,
    mechanics: Math.max(1, repairers.length),
    parts,
    repairers,
    temporary: false,
    said_at: null,
  };
}

export function Finish(props: JobPart & { starts: EntryOf<"job.started">[] }) {
  const { state, setup, actions, job, onDone, starts } = props;
  const [said, setSaid] = useState(() => begin(job, starts, state.identity?.person ?? "", state.now));
  const { busy, problem, run } = usePending();
  const change = (more: Partial<FinishFacts>) => setSaid({ ...said, ...more });
  // How many did it follows from who did it; the count is changed by hand where one writes for many.
  const toggle = (person: string, on: boolean) => {
    const repairers = on ? [...said.repairers, person] : said.repairers.filter((one) => one !== person);
    change({ repairers, mechanics: Math.max(1, repairers.length) });
  };
  const save = async () => {
    const { said_at } = shutOf(props);
    await actions.finishJob(job.job, { ...said, said_at, parts: said.parts.filter((part) => part.qty > 0) });
    onDone();
  };
  const names = [...new Set([said.action, job.action, ...words.actions])].filter(
    (one) => one !== "inspect" && one !== "assess",
  );
  return (
    <section class="sheet" aria-labelledby="finish-title">
      <FormTitle id="finish-title" text={words.finishTitle} />
      <NoWork {...props} late />
      <OneOf
        legend={words.actionDone}
        value={said.action}
        options={names.map((value) => ({ value, label: queue.action(value) }))}
        onPick={(action) => change({ action })}
      />
      <OneOf
        legend={words.howLong}
        value={said.temporary ? "now" : "good"}
        options={[
          { value: "good", label: words.forGood },
          { value: "now", label: words.forNow },
        ]}
        onPick={(value) => change({ temporary: value === "now" })}
      />
      <Minutes job={job} said={said} onChange={change} />
      <PartsUsed setup={setup} said={said} onChange={change} />
      <AnyOf
        legend={words.whoDid}
        options={hands(setup).map((one) => ({ value: one.person, label: one.name }))}
        chosen={said.repairers}
        onToggle={toggle}
      />
      <div class="job-dock">
        <ProblemLine text={problem} />
        <Dock primary={{ children: words.finishDo, busy, onClick: () => run(save) }} />
      </div>
    </section>
  );
}

interface Part {
  said: FinishFacts;
  onChange: (more: Partial<FinishFacts>) => void;
}

function Minutes({ job, said, onChange }: Part & { job: Job }) {
  const { minutes } = said;
  return (
    <>
      <OneOf
        legend={words.minutes}
        value={minutes === null ? "not" : "timed"}
        options={[
          { value: "timed", label: words.timed },
          { value: "not", label: words.notTimed },
        ]}
        onPick={(value) => onChange({ minutes: value === "not" ? null : Math.round(job.estimate.minutes_likely) || 1 })}
      />
      {minutes !== null && (
        <Stepper
          label={words.minutes}
          shown={String(minutes)}
          steps={[-5, -1, 1, 5].map((by) => ({ by, label: by > 0 ? `+${by}` : `−${-by}` }))}
          onStep={(by) => onChange({ minutes: Math.max(1, minutes + by) })}
        />
      )}
      <div>
        <span class="label">{words.mechanics}</span>
        <Stepper
          label={words.mechanics}
          shown={String(said.mechanics)}
          steps={[
            { by: -1, label: "−1" },
            { by: 1, label: "+1" },
          ]}
          onStep={(by) => onChange({ mechanics: Math.max(1, said.mechanics + by) })}
        />
      </div>
    </>
  );
}

function PartsUsed({ setup, said, onChange }: Part & { setup: EventSetup }) {
  const others = setup.parts.filter((one) => !said.parts.some((used) => used.part === one.part));
  const step = (part: string, by: number) =>
    onChange({ parts: said.parts.map((one) => (one.part === part ? { part, qty: Math.max(0, one.qty + by) } : one)) });
  return (
    <div class="stack">
      <span class="label">{words.partsUsed}</span>
      {said.parts.map(({ part, qty }) => (
        <div key={part}>
          <span>{partName(setup, part)}</span>
          <Stepper
            label={partName(setup, part)}
            shown={String(qty)}
            steps={[
              { by: -1, label: "−1" },
              { by: 1, label: "+1" },
            ]}
            onStep={(by) => step(part, by)}
          />
        </div>
      ))}
      {said.parts.length === 0 && <p class="soft">{words.noParts}</p>}
      {others.length > 0 && (
        <PartSearch parts={others} onPick={(part) => onChange({ parts: [...said.parts, { part, qty: 1 }] })} />
      )}
    </div>
  );
}
