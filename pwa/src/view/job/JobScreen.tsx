/** One job: what it is and why, the one thing to do next at the thumb, everything else below. */

import "../ui/tokens.css";
import { reportsOf } from "../../report/effective";
import { failedChecks } from "../../report/at_place";
import { entriesOf } from "../../report/lists";
import { plannedJobs } from "../../report/planned_jobs";
import type { Entry, Job } from "../../kit/api";
import { Voices } from "../bits/Voices";
import { ofJob, voicesBySubject } from "../../report/voices";
import { componentLabel, personName, timeOf, zoneLabel } from "../labels";
import { failedText } from "../place/Rows";
import { clockAt, namesOf } from "../plan/labels";
import { placeHref } from "../place/shown";
import "../queue/queue.css";
import { planHere } from "../queue/shares";
import { reasonsOf, reportedAgain } from "../queue/why";
import type { CarScreen } from "../screen";
import { Banner } from "../ui/Card";
import { job as words } from "../words/job";
import { places } from "../words/places";
import { CageCard } from "./CageCard";
import { cautionsOf } from "./cautions";
import { counted, startsOn } from "./history";
import "./job.css";
import { JobFacts } from "./JobFacts";
import { JobReasons } from "./JobReasons";
import { JobTags } from "./JobTags";
import { Work } from "./Work";

export function JobScreen(props: CarScreen) {
  const { state } = props;
  const job = state.queue?.answer.jobs.find((one) => one.job === state.route.subject);
  return <div class="job">{job ? <JobPage {...props} job={job} /> : <NotThere />}</div>;
}

const NotThere = () => (
  <>
    <h1>{words.title}</h1>
    <p>{words.notThere}</p>
  </>
);

function JobPage(props: CarScreen & { job: Job }) {
  const { state, setup, car, actions, job } = props;
  const valid = counted(entriesOf(state.entries), car, setup);
  const voices = ofJob(voicesBySubject(state.entries, car, setup, state.identity?.person), job);
  return (
    <>
      <Title {...props} />
      <JobTags
        {...{ job, setup }}
        starts={startsOn(valid, job.job)}
        planned={plannedFor(props)}
        again={reportedAgain(job, state.entries, setup)}
      />
      <Failed {...{ job, setup, valid }} />
      {job.group === "cage" && <CageCard />}
      <JobReasons {...{ job, setup, actions, voices }} reasons={reasonsOf(job, reportsOf(state.entries, car), setup)} />
      <JobFacts job={job} setup={setup} has_failed={failedChecks(job, valid) !== null} />
      <Cautions job={job} />
      <Voices voices={[]} onto={job.job} {...{ setup, actions }} />
      <Work {...props} valid={valid} />
    </>
  );
}

/** Who has it by the plan and from when, until somebody starts. */
function plannedFor(props: CarScreen & { job: Job }): string | null {
  const { setup, job } = props;
  const held = job.state === "open" ? planHere(props) : null;
  const planned = held && plannedJobs(held.plan.tasks).get(job.job);
  return planned ? places.plannedFor(namesOf(setup, planned.people), clockAt(held.plan, setup, planned.start_s)) : null;
}

/** The part; under it the place, which leads to all that is open there. */
function Title({ state, setup, job }: CarScreen & { job: Job }) {
  const there = (state.queue?.answer.jobs ?? []).filter((one) => one.zone === job.zone).length;
  const zone = zoneLabel(setup.car_map, job.zone);
  return (
    <div class="job-title">
      <h1>{componentLabel(setup.car_map, job.component)}</h1>
      <a href={placeHref(job.zone)}>{there > 1 ? places.toPlace(zone, there) : zone}</a>
    </div>
  );
}

/** What the inspector found not OK, as long as it is so. */
function Failed({ job, setup, valid }: { job: Job; setup: CarScreen["setup"]; valid: Entry[] }) {
  const failed = failedChecks(job, valid);
  if (!failed) return null;
  const { entry, checks } = failed;
  const note = entry.kind === "inspection.failed" || entry.kind === "inspection.passed" ? entry.data.note : null;
  const who = words.failedBy(personName(setup, entry.person), timeOf(setup, entry.at));
  return (
    <Banner tone="hold" title={failedText(checks)}>
      {[who, note].filter(Boolean).join(" ")} {words.failedThen}
    </Banner>
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
