/** The queue of one car for the crew: hold bar, what is new, jobs in order. */

import type { EventSetup, Job } from "../../kit/api";
import type { AppState } from "../../flow/model";
import { reportsOf } from "../../report/effective";
import { Announced } from "../bits/Announced";
import { Icon } from "../bits/Icon";
import { heardAt } from "../labels";
import type { CarScreen } from "../screen";
import { documents } from "../words/documents";
import { plan } from "../words/plan";
import { queue } from "../words/queue";
import { ofJob, voicesBySubject } from "../../report/voices";
import { CornerLook } from "./CornerLook";
import { HoldBar, isManager } from "./HoldBar";
import { JobCard } from "./JobCard";
import { Packing } from "./Packing";
import "./queue.css";
import { ReleasedUnseen } from "./ReleasedUnseen";
import { cornerLooks, type Section, sectionOf } from "./sections";
import { TickSeveral } from "./TickSeveral";
import { Unsent } from "./Unsent";
import { reasonsOf, reportedAgain } from "./why";

const SECTIONS: Section[] = ["inspect", "must", "worth"];

export function QueueScreen(props: CarScreen) {
  const { state, setup, car } = props;
  const jobs = state.queue?.answer.jobs ?? [];
  const inSection = (section: Section) => jobs.filter((job) => sectionOf(job) === section);
  const done = inSection("done");
  return (
    <div class="stack">
      <h1>{queue.title}</h1>
      {state.release && (
        <HoldBar release={state.release} setup={setup} now_ms={state.now} isManager={isManager(state)} />
      )}
      {state.identity?.roles.some((role) => role !== "driver" && role !== "co-driver") && <Links />}
      <HeardLine state={state} setup={setup} />
      {setup.trust?.signatures === "off" && <Unproven />}
      {state.queue && <ReleasedUnseen answer={state.queue.answer} setup={setup} />}
      <News {...props} />
      <Unsent state={state} setup={setup} car={car} />
      {state.queue && jobs.length === 0 && <p>{queue.empty}</p>}
      <TickSeveral {...props} jobs={jobs} />
      {SECTIONS.map((section) => (
        <Jobs key={section} {...props} section={section} jobs={inSection(section)} />
      ))}
      {done.length > 0 && (
        <details>
          <summary>{queue.doneCount(done.length)}</summary>
          <Cards {...props} jobs={done} />
        </details>
      )}
      <Totals {...props} jobs={jobs} />
    </div>
  );
}

const Links = () => (
  <div class="row even">
    <a class="button" href="#/plan">
      {plan.toPlan}
    </a>
    <a class="button" href="#/documents">
      {documents.link}
    </a>
  </div>
);

/** Nobody's signature was asked for: who wrote what is only said. */
const Unproven = () => (
  <p class="status-line strong" role="note">
    <Icon name="attention" />
    <span>{queue.signaturesOff}</span>
  </p>
);

/** Jobs that this person has not seen yet. */
function News({ state, actions }: CarScreen) {
  if (state.fresh_jobs.length === 0) return null;
  return (
    <div class="row news">
      <span class="strong">{queue.news(state.fresh_jobs.length)}</span>
      <button type="button" class="button" onClick={() => void actions.lookedAtQueue()}>
        {queue.seen}
      </button>
    </div>
  );
}

function Totals({ state, setup, car, jobs }: CarScreen & { jobs: Job[] }) {
  if (!state.queue || jobs.length === 0) return null;
  const { totals, hash } = state.queue.answer;
  return (
    <>
      <p class="soft">{queue.totals(String(totals.mechanic_minutes))}</p>
      <Packing jobs={jobs} setup={setup} car={car} />
      <p class="soft small" data-hash={hash}>
        {queue.check(hash.slice(0, 8))}
      </p>
    </>
  );
}

function HeardLine({ state, setup }: { state: AppState; setup: EventSetup }) {
  const own = state.queue_from === "phone";
  const heard_at = own ? state.last_heard : state.queue?.heard_at;
  const heard = heard_at ? queue.heard(heardAt(setup, heard_at, state.now)) : queue.heardNever;
  return (
    <div class="soft">
      <Announced text={state.unreachable ? queue.serverAway : ""} />
      {own && <p class="strong">{queue.workedOutHere}</p>}
      <p>{state.unreachable ? `${heard}, ${queue.unreachable}` : heard}</p>
    </div>
  );
}

function Jobs({ section, jobs, ...props }: CarScreen & { section: Section; jobs: Job[] }) {
  if (!jobs.length) return null;
  const inspector = props.state.identity?.roles.includes("inspector");
  const corners = section === "inspect" && inspector ? cornerLooks(jobs) : [];
  return (
    <section class="stack" aria-labelledby={`section-${section}`}>
      <h2 id={`section-${section}`}>
        {queue.sections[section]} ({jobs.length})
      </h2>
      {corners.map((corner) => (
        <CornerLook key={corner.zone} {...props} zone={corner.zone} jobs={corner.jobs} />
      ))}
      <Cards {...props} jobs={jobs} />
    </section>
  );
}

function Cards({ state, setup, car, actions, jobs }: CarScreen & { jobs: Job[] }) {
  const reports = reportsOf(state.entries, car);
  const voices = voicesBySubject(state.entries, car, setup);
  return (
    <ul class="jobs">
      {jobs.map((job) => (
        <JobCard
          key={job.job}
          job={job}
          setup={setup}
          fresh={state.fresh_jobs.includes(job.job)}
          reasons={reasonsOf(job, reports, setup)}
          again={reportedAgain(job, state.entries, setup)}
          actions={actions}
          voices={ofJob(voices, job)}
        />
      ))}
    </ul>
  );
}
