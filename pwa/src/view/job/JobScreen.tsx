/** One job: why it is there, the work on it, the look at it. */

import { useRef, useState } from "preact/hooks";
import type { Job } from "../../kit/api";
import { reportsOf } from "../../report/effective";
import { prefill } from "../../report/prefill";
import { ProblemLine } from "../bits/Problem";
import { type Pending, usePending } from "../bits/usePending";
import { Voices } from "../bits/Voices";
import { ofJob, voicesBySubject } from "../../report/voices";
import { jobLabel, personName, timeOf } from "../labels";
import { keepDraft } from "../log/keptDraft";
import { HoldBar, isManager } from "../queue/HoldBar";
import { JobTags, JobWhy, JobWork } from "../queue/JobCard";
import "../queue/queue.css";
import { reasonsOf, reportedAgain } from "../queue/why";
import type { CarScreen } from "../screen";
import { NoWork, shutOf } from "../service/NoWork";
import { job as words } from "../words/job";
import { reports as reportWords } from "../words/reports";
import { CageCard } from "./CageCard";
import { cautionsOf } from "./cautions";
import { Defer } from "./Defer";
import { Finish } from "./Finish";
import { counted, lastOwn, startsOn } from "./history";
import "./job.css";
import { Kept } from "./Kept";
import { LookForm } from "./LookForm";

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

type Open = "none" | "finish" | "defer" | "look";

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
        {toggle("look", words.look)}
      </div>
      <ProblemLine text={pending.problem} />
      {open === "finish" && <Finish {...part} starts={starts} />}
      {open === "defer" && <Defer {...part} />}
      {open === "look" && <LookForm {...part} valid={valid} />}
      <Kept {...props} valid={valid} />
      <Undo {...props} valid={valid} />
    </section>
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
