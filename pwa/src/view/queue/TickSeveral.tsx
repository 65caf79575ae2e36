/** Several jobs done, ticked by one scribe for others: which, who did them, timed or not; one entry each. */

import type { EntryOf, Job } from "../../kit/api";
import { entriesOf } from "../../report/lists";
import type { Finish } from "../../flow/model";
import { AnyOf, OneOf } from "../bits/Chips";
import { FormTitle } from "../bits/FormTitle";
import { ProblemLine } from "../bits/Problem";
import { Stepper } from "../bits/Stepper";
import { useDraft } from "../bits/useDraft";
import { usePending } from "../bits/usePending";
import { hands, minutesSince } from "../job/part";
import { counted, startsOn } from "../job/history";
import { jobLabel } from "../labels";
import type { CarScreen } from "../screen";
import { NoWork, shutOf } from "../service/NoWork";
import { queue as words } from "../words/queue";
import { job as jobWords } from "../words/job";

/** Jobs that somebody may have repaired: what only has to be inspected or assessed is signed on its own page. */
export const canTick = (job: Job) =>
  !["finished", "accepted"].includes(job.state) && !["inspect", "assess"].includes(job.action);

export const TickSeveral = (props: CarScreen & { jobs: Job[]; onDone: () => void }) => (
  <div class="queue-form">
    <TickForm {...props} jobs={props.jobs.filter(canTick)} />
  </div>
);

interface Draft {
  ticked: string[];
  repairers: string[];
  timed: boolean;
  minutes: Record<string, number>;
}

const EMPTY: Draft = { ticked: [], repairers: [], timed: false, minutes: {} };

function TickForm(props: CarScreen & { jobs: Job[]; onDone: () => void }) {
  const { state, setup, car, actions, jobs, onDone } = props;
  const { said_at } = shutOf(props);
  const { draft, change } = useDraft<Draft>(EMPTY);
  const { ticked, repairers, timed, minutes } = draft;
  const { busy, problem, run } = usePending();
  const entries = counted(entriesOf(state.entries), car, setup);
  const chosen = jobs.filter((job) => ticked.includes(job.job));
  const minutesOf = (job: Job) => minutes[job.job] ?? begun(startsOn(entries, job.job), job, state.now);
  const finish = () => {
    const missing = chosen.length === 0 ? words.tick.pickJob : repairers.length === 0 ? words.tick.pickWho : null;
    void run(async () => {
      await actions.finishJobs(
        chosen.map((job) => ({
          job: job.job,
          finish: { ...finishOf(job, repairers, timed ? minutesOf(job) : null), said_at },
        })),
      );
      onDone();
    }, missing);
  };
  return (
    <section class="sheet" aria-labelledby="tick-title">
      <FormTitle id="tick-title" text={words.tick.formTitle} />
      <NoWork {...props} late />
      <AnyOf
        legend={words.tick.which}
        options={jobs.map((job) => ({ value: job.job, label: jobLabel(setup.car_map, job.job) }))}
        chosen={ticked}
        onToggle={(key, on) => change({ ticked: toggled(ticked, key, on) })}
      />
      <AnyOf
        legend={jobWords.whoDid}
        options={hands(setup).map((one) => ({ value: one.person, label: one.name }))}
        chosen={repairers}
        onToggle={(person, on) => change({ repairers: toggled(repairers, person, on) })}
      />
      <OneOf
        legend={jobWords.minutes}
        value={timed ? "timed" : "not"}
        options={[
          { value: "not", label: jobWords.notTimed },
          { value: "timed", label: jobWords.timed },
        ]}
        onPick={(value) => change({ timed: value === "timed" })}
      />
      {timed &&
        chosen.map((job) => (
          <Minutes
            key={job.job}
            label={jobLabel(setup.car_map, job.job)}
            minutes={minutesOf(job)}
            onChange={(value) => change({ minutes: { ...minutes, [job.job]: value } })}
          />
        ))}
      <p class="soft">{words.tick.note}</p>
      <ProblemLine text={problem} />
      <button type="button" class="button main" disabled={busy} onClick={finish}>
        {words.tick.finish(chosen.length)}
      </button>
    </section>
  );
}

const toggled = (list: string[], one: string, on: boolean) =>
  on ? [...list, one] : list.filter((other) => other !== one);

/** Since the first start, or what the rate table expects where nobody started it. */
const begun = (starts: EntryOf<"job.started">[], job: Job, now: number) =>
  minutesSince(starts, now) ?? Math.max(1, Math.round(job.estimate.minutes_likely));

function finishOf(job: Job, repairers: string[], minutes: number | null): Finish {
  const parts = job.estimate.parts.map(({ part, qty }) => ({ part, qty }));
  return {
    action: job.action,
    minutes,
    mechanics: job.estimate.mechanics,
    parts,
    repairers,
    temporary: false,
    said_at: null,
  };
}

function Minutes({ label, minutes, onChange }: { label: string; minutes: number; onChange: (value: number) => void }) {
  return (
    <div>
      <span class="label">{label}</span>
      <Stepper
        label={label}
        shown={String(minutes)}
        steps={[-5, -1, 1, 5].map((by) => ({ by, label: by > 0 ? `+${by}` : `−${-by}` }))}
        onStep={(by) => onChange(Math.max(1, minutes + by))}
      />
    </div>
  );
}
