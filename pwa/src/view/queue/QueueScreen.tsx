/** The queue of one car for the crew: how much there is, what is new, the jobs by place. */

import { useMemo, useState } from "preact/hooks";
import type { EventSetup, Job } from "../../kit/api";
import { hasWords } from "../../kit/matching";
import type { AppState } from "../../flow/model";
import { Announced } from "../bits/Announced";
import { ListSearch } from "../bits/ListSearch";
import { lazy } from "../bits/lazy";
import { useOpen } from "../bits/useOpen";
import { upTo, usePortions } from "../bits/usePortions";
import { heardAt, jobLabel, zoneLabel } from "../labels";
import type { CarScreen } from "../screen";
import { Button, IconButton } from "../ui/Button";
import { Banner, EmptyState } from "../ui/Card";
import { List } from "../ui/Row";
import { plan } from "../words/plan";
import { queue } from "../words/queue";
import { factsOf } from "./facts";
import { Fit } from "./Fit";
import { JobRow } from "./JobRow";
import { MoreSheet } from "./MoreSheet";
import { Packing } from "./Packing";
import { Place } from "./Place";
import { type PlaceJobs, placesOf } from "./places";
import "./queue.css";
import { ReleasedUnseen } from "./ReleasedUnseen";
import { sectionOf } from "./sections";
import { TickSeveral } from "./TickSeveral";
import { Unsent } from "./Unsent";

// Few teams give parts a life; what is due of them is no job.
const LivesPressing = lazy<CarScreen>(
  async () => (await import("../lives/LivesPressing")).LivesPressing,
  () => null,
);

type PlacesProps = Omit<Parameters<typeof Place>[0], "place"> & { places: PlaceJobs[] };

export function QueueScreen(props: CarScreen) {
  const { state, setup, car } = props;
  const jobs = state.queue?.answer.jobs ?? [];
  const facts = factsOf(props);
  const ticking = useOpen();
  const current = state.route.screen === "job" ? state.route.subject : null;
  const [typed, setTyped] = useState("");
  const found = jobs.filter((job) => hasWords(jobLabel(setup.car_map, job.job), typed));
  return (
    <div class="queue">
      <h1 class="unseen">{queue.title}</h1>
      <Head {...props} jobs={jobs} onTick={ticking.open} />
      {facts.shares.length > 0 && <Fit shares={facts.shares} />}
      {jobs.length > 0 && <ListSearch typed={typed} none={found.length === 0} onType={setTyped} />}
      <News {...props} />
      {state.queue && <ReleasedUnseen answer={state.queue.answer} setup={setup} />}
      {ticking.isOpen && <TickSeveral {...props} jobs={jobs} onDone={ticking.close} />}
      {state.queue && jobs.length === 0 && (
        <EmptyState icon="queue" title={queue.emptyTitle}>
          {queue.empty}
        </EmptyState>
      )}
      {!state.queue && <EmptyState icon="offline" title={queue.notHere} />}
      <Places {...{ state, setup, facts, current }} places={placesOf(found)} />
      <Done jobs={found} row={(job) => <JobRow key={job.job} {...facts.of(job)} {...named(job, setup, current)} />} />
      <div class="queue-foot">
        <LivesPressing {...props} />
        <Unsent state={state} setup={setup} car={car} />
        <Totals {...props} jobs={jobs} />
        {setup.trust?.signatures === "off" && <Banner tone="caution">{queue.signaturesOff}</Banner>}
      </div>
    </div>
  );
}

/** The places in their order; of hundreds of jobs those that are in sight first. */
function Places({ state, setup, facts, current, places }: PlacesProps) {
  const drawn = usePortions(places.reduce((sum, { jobs }) => sum + jobs.length, 0));
  // The very same elements while more come: those that are drawn are not gone through again.
  const cards = useMemo(
    () => places.map((place) => <Place key={place.zone} {...{ state, setup, facts, current, place }} />),
    [state, setup, facts, current, places],
  );
  return <>{cards.slice(0, upTo(places, drawn, ({ jobs }) => jobs.length).length)}</>;
}

const named = (job: Job, setup: EventSetup, current: string | null) => ({
  place: zoneLabel(setup.car_map, job.zone),
  current: job.job === current,
});

/** How many and how long, the plan that says what fits, and all that is seldom wanted. */
function Head({ state, setup, jobs, onTick }: CarScreen & { jobs: Job[]; onTick: () => void }) {
  const more = useOpen();
  const open = jobs.filter((job) => sectionOf(job) !== "done").length;
  const minutes = state.queue?.answer.totals.mechanic_minutes ?? 0;
  const works = state.identity?.roles.some((role) => role !== "driver" && role !== "co-driver");
  return (
    <div class="queue-head">
      <p>
        <strong>{queue.jobs(open)}</strong> {open > 0 && queue.work(Math.round(minutes))}
        <HeardHere state={state} setup={setup} />
      </p>
      {works && (
        <Button kind="text" href="#/plan">
          {plan.short}
        </Button>
      )}
      <IconButton icon="more" label={queue.more} expanded={more.isOpen} onClick={more.open} />
      {more.isOpen && <MoreSheet {...{ jobs, onTick }} works={works ?? false} onClose={more.close} />}
    </div>
  );
}

/** Where the queue is not the server's own of just now, that is said beside it; else at the foot. */
function HeardHere({ state, setup }: { state: AppState; setup: EventSetup }) {
  const own = state.queue_from === "phone";
  return (
    <>
      <Announced text={state.unreachable ? queue.serverAway : ""} />
      {own && <span class="queue-note">{queue.workedOutHere}</span>}
      {state.unreachable && <span class="queue-note">{`${heardOf(state, setup)}, ${queue.unreachable}`}</span>}
    </>
  );
}

function heardOf(state: AppState, setup: EventSetup): string {
  const heard_at = state.queue_from === "phone" ? state.last_heard : state.queue?.heard_at;
  return heard_at ? queue.heard(heardAt(setup, heard_at, state.now)) : queue.heardNever;
}

/** Jobs that this person has not seen yet. */
function News({ state, actions }: CarScreen) {
  const fresh = state.fresh_jobs.length;
  if (fresh === 0) return null;
  return (
    <div class="queue-news">
      <p>{state.has_looked ? queue.news(fresh) : queue.allNew}</p>
      <Button kind="text" onClick={() => void actions.lookedAtQueue()}>
        {queue.seen}
      </Button>
    </div>
  );
}

function Done({ jobs, row }: { jobs: Job[]; row: (job: Job) => preact.JSX.Element }) {
  const done = jobs.filter((job) => sectionOf(job) === "done");
  if (done.length === 0) return null;
  return (
    <details class="queue-done">
      <summary>{queue.doneCount(done.length)}</summary>
      <List>{done.map(row)}</List>
    </details>
  );
}

function Totals({ state, setup, car, jobs }: CarScreen & { jobs: Job[] }) {
  if (!state.queue) return null;
  const { hash } = state.queue.answer;
  return (
    <>
      {jobs.length > 0 && <Packing jobs={jobs} setup={setup} car={car} />}
      {!state.unreachable && <p>{heardOf(state, setup)}</p>}
      <p class="small" data-hash={hash}>
        {queue.check(hash.slice(0, 8))}
      </p>
    </>
  );
}
