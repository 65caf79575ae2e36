/** One job: why it is there, the work on it, the look at it. */

import { useRef, useState } from "preact/hooks";
import type { Entry, Job } from "../../kit/api";
import { atPlace } from "../../report/at_place";
import { reportsOf } from "../../report/effective";
import { prefill } from "../../report/prefill";
import { ProblemLine } from "../bits/Problem";
import { type Pending, usePending } from "../bits/usePending";
import { Voices } from "../bits/Voices";
import { ofJob, voicesBySubject } from "../../report/voices";
import { jobLabel, personName, timeOf, zoneLabel } from "../labels";
import { keepDraft } from "../log/keptDraft";
import { HoldBar, isManager } from "../queue/HoldBar";
import { JobTags, JobWhy, JobWork } from "../queue/JobCard";
import "../queue/queue.css";
import { reasonsOf, reportedAgain } from "../queue/why";
import type { CarScreen } from "../screen";
import { NoWork, shutOf } from "../service/NoWork";
import { inspectHref, placeHref } from "../place/shown";
import { job as words } from "../words/job";
import { places } from "../words/places";
import { reports as reportWords } from "../words/reports";
import { CageCard } from "./CageCard";
import { cautionsOf } from "./cautions";
import { Defer } from "./Defer";
import { Finish } from "./Finish";
import { counted, lastOwn, startsOn } from "./history";
import "./job.css";
import { Kept } from "./Kept";

export function JobScreen(props: CarScreen) {
  const { state } = props;
  const job = state.queue?.answer.jobs.find((one) => one.job === state.route.subject);
  return (
    <div class="stack">
      <a class="button quiet back" href="#/queue">
        {words.back}
      </a>
      {job ? <JobPage {...props} job={job} /> : <NotThere />}
    </div>
  );
}

const NotThere = () => (
  <>
    <h1>{words.title}</h1>
    <p>{words.notThere}</p>
  </>
);

function JobPage(props: CarScreen & { job: Job }) {
  const { state, setup, car, actions, job } = props;
  const map = setup.car_map;
  const facts = {
    job,
    setup,
    reasons: reasonsOf(job, reportsOf(state.entries, car), setup),
    again: reportedAgain(job, state.entries, setup),
    actions,
    voices: ofJob(voicesBySubject(state.entries, car, setup, state.identity?.person), job),
  };
  return (
    <>
      <h1>{jobLabel(map, job.job)}</h1>
      {state.release && (
        <HoldBar release={state.release} setup={setup} now_ms={state.now} isManager={isManager(state)} />
      )}
      <JobTags {...facts} />
      {job.group === "cage" && <CageCard />}
      <Cautions job={job} />
      <section class="sheet" aria-labelledby="why-title">
        <h2 id="why-title">{words.why}</h2>
        <JobWhy {...facts} />
        <JobWork job={job} setup={setup} />
      </section>
      <Work {...props} />
      <Voices voices={[]} onto={job.job} {...{ setup, actions }} />
      <ToPlace {...props} />
      <AddFound {...props} />
    </>
  );
}

function Cautions({ job }: { job: Job }) {
  const cautions = cautionsOf(job);
  if (!cautions.length) return null;
  return (
    <section class="cautions" aria-labelledby="cautions-title">
      <h2 id="cautions-title">{words.cautions}</h2>
      <ul class="bulleted">
        {cautions.map((name) => (
          <li key={name}>{words.caution[name]}</li>
        ))}
      </ul>
    </section>
  );
}

type Open = "none" | "finish" | "defer";

/** Which form is open under the job; closing it gives the focus back to its button. */
function useForms() {
  const [open, setOpen] = useState<Open>("none");
  const opener = useRef<HTMLButtonElement | null>(null);
  const close = () => {
    setOpen("none");
    opener.current?.focus({ preventScroll: true });
  };
  const toggle = (which: Open, label: string) => (
    <button
      type="button"
      class="button"
      aria-expanded={open === which}
      onClick={(event) => {
        opener.current = event.currentTarget;
        setOpen(open === which ? "none" : which);
      }}
    >
      {label}
    </button>
  );
  return { open, close, toggle };
}

function StartOrStop(props: CarScreen & { job: Job; pending: Pending; isStarted: boolean }) {
  const { actions, job, isStarted } = props;
  const { busy, run } = props.pending;
  const { shut } = shutOf(props);
  if (isStarted) {
    return (
      <button type="button" class="button" aria-disabled={busy} onClick={() => run(() => actions.stopJob(job.job))}>
        {words.stop}
      </button>
    );
  }
  return (
    <button
      type="button"
      class="button main"
      disabled={shut}
      aria-disabled={busy}
      onClick={() => run(() => actions.startJob(job.job))}
    >
      {words.start}
    </button>
  );
}

function Work(props: CarScreen & { job: Job }) {
  const { state, setup, car, job } = props;
  const { open, close, toggle } = useForms();
  const pending = usePending();
  const valid = counted(
    state.entries.map((held) => held.entry),
    car,
    setup,
  );
  const starts = startsOn(valid, job.job);
  const part = { ...props, onDone: close };
  return (
    <section class="stack" aria-labelledby="work-title">
      <h2 id="work-title">{words.work}</h2>
      {starts.map((start) => (
        <p key={start.id}>{words.startedBy(personName(setup, start.person), timeOf(setup, start.at))}</p>
      ))}
      <NoWork {...props} />
      <div class="row even">
        <StartOrStop {...props} pending={pending} isStarted={starts.length > 0} />
        {toggle("finish", words.finish)}
        {toggle("defer", words.defer)}
        <Inspect {...props} valid={valid} />
      </div>
      <ProblemLine text={pending.problem} />
      {open === "finish" && <Finish {...part} starts={starts} />}
      {open === "defer" && <Defer {...part} />}
      <Kept {...props} valid={valid} />
      <Undo {...props} valid={valid} />
    </section>
  );
}

/** To the inspection: with all that waits at the place, or of this part alone where it does not wait with them. */
function Inspect({ state, job, valid }: CarScreen & { job: Job; valid: Entry[] }) {
  if (!job.safety_critical) return null;
  const { inspect } = atPlace(job.zone, state.queue?.answer.jobs ?? [], valid);
  const together = inspect.some((one) => one.job === job.job);
  return (
    <a class="button" href={inspectHref(job.zone, together ? undefined : job.component)}>
      {words.look}
    </a>
  );
}

/** To all that is open at the place of this job. */
function ToPlace({ state, setup, job }: CarScreen & { job: Job }) {
  const there = (state.queue?.answer.jobs ?? []).filter((one) => one.zone === job.zone);
  if (there.length < 2) return null;
  return (
    <a class="button" href={placeHref(job.zone)}>
      {places.toPlace(zoneLabel(setup.car_map, job.zone), there.length)}
    </a>
  );
}

function Undo({ state, setup, actions, job, valid }: CarScreen & { job: Job; valid: ReturnType<typeof counted> }) {
  const { busy, problem, run } = usePending();
  const last = state.identity && lastOwn(valid, job.job, state.identity.person);
  if (!last) return null;
  const what = reportWords.kind[last.kind] ?? last.kind;
  return (
    <>
      <button
        type="button"
        class="button"
        disabled={busy}
        onClick={() => run(() => actions.voidEntry(last.id, words.undoReason))}
      >
        {words.undo(what.toLowerCase(), timeOf(setup, last.at))}
      </button>
      <ProblemLine text={problem} />
    </>
  );
}

// What the crew itself finds is a report like any other: in service, in this place.
function AddFound({ state, setup, car, actions, job }: CarScreen & { job: Job }) {
  const begin = () => {
    const entries = state.entries.map((held) => held.entry);
    keepDraft(car, { ...prefill(entries, car, setup, state.now), where: "service", zone: job.zone });
    actions.go("/log");
  };
  return (
    <button type="button" class="button" onClick={begin}>
      {words.add}
    </button>
  );
}
