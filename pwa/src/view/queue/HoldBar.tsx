/** What the log holds of the car's release, always in sight: HOLD with reasons, nothing open in the log, or not known yet. */

import type { CarMap, EventSetup, HoldReason } from "../../kit/api";
import type { AppState, ReleaseShown } from "../../flow/model";
import { Announced } from "../bits/Announced";
import { Icon } from "../bits/Icon";
import { heardAt, jobLabel } from "../labels";
import { queue } from "../words/queue";
import { common } from "../words/common";

interface HoldBarProps<R extends ReleaseShown = ReleaseShown> {
  release: R;
  setup: EventSetup;
  now_ms: number;
  /** Who may look through what was set aside: for them the reason leads there. */
  isManager: boolean;
}

export function HoldBar({ release, setup, now_ms, isManager }: HoldBarProps) {
  if (release.shown === "hold") return <Hold {...{ release, setup, now_ms, isManager }} />;
  if (release.shown === "nothing-open") {
    return (
      <section class="hold-bar nothing" aria-label={queue.release}>
        <Announced text={queue.nothing} />
        <p class="hold-word">
          <Icon name="nothing-open" />
          {queue.nothing}
        </p>
        <p>{`${queue.heard(heardAt(setup, release.heard_at, now_ms))}. ${queue.nothingNote}`}</p>
      </section>
    );
  }
  return (
    <section class="hold-bar not-known" aria-label={queue.release}>
      <Announced text={common.and(queue.release, queue.unknown)} />
      <p class="hold-word">
        <Icon name="unknown" />
        {queue.unknown}
      </p>
      <Why why={release.why} />
    </section>
  );
}

function Hold({ release, setup, now_ms, isManager }: HoldBarProps<ReleaseShown & { shown: "hold" }>) {
  const map = setup.car_map;
  const short = shortReasons(release.reasons, map);
  return (
    <section class="hold-bar hold" aria-label={queue.release}>
      <Announced text={common.and(queue.hold, short)} />
      <details>
        <summary>
          <span class="hold-word">
            <Icon name="hold" />
            {queue.hold}
          </span>{" "}
          <span class="hold-short">{short}</span>
        </summary>
        <p>{queue.holdWhy}</p>
        <ul>
          {release.reasons.map((reason) => (
            <li key={`${reason.job} ${reason.needs}`}>
              <Reason reason={reason} map={map} isManager={isManager} />
            </li>
          ))}
        </ul>
        <Why why={release.why} />
        <p>{release.heard_at ? queue.heard(heardAt(setup, release.heard_at, now_ms)) : queue.heardNever}</p>
      </details>
    </section>
  );
}

/** "4 reasons: Front left: Brake hose, …", so that nobody must open the bar to see what holds the car. */
function shortReasons(reasons: HoldReason[], map: CarMap): string {
  const names = reasons.map((one) =>
    one.job === null ? (queue.needs[one.needs] ?? one.needs) : jobLabel(map, one.job),
  );
  return common.and(queue.holdCount(reasons.length), names.join(", "));
}

function Reason({ reason, map, isManager }: { reason: HoldReason; map: CarMap; isManager: boolean }) {
  const needs = queue.needs[reason.needs] ?? reason.needs;
  if (reason.job === null && isManager)
    return (
      <a class="job-line" href="#/aside">
        <span>{queue.toAside}</span> {needs}
      </a>
    );
  if (reason.job === null) return <span>{needs}</span>;
  return <JobLine job={reason.job} map={map} says={needs} />;
}

/** A line of a list that leads to a job's page: the whole of it, since a thumb in a glove hits no single word. */
export const JobLine = ({ job, map, says }: { job: string; map: CarMap; says: string }) => (
  <a class="job-line" href={jobHref(job)}>
    <span>{jobLabel(map, job)}</span> {says}
  </a>
);

/** Whether the person who uses this phone is a manager. */
export const isManager = ({ identity }: AppState) => identity?.roles.includes("manager") ?? false;

/** The address of a job's page. */
export const jobHref = (key: string) => `#/job/${key.split("/").map(encodeURIComponent).join("/")}`;

const Why = ({ why }: { why: string[] }) => (
  <>
    {why.map((sentence) => (
      <p key={sentence}>{sentence}</p>
    ))}
  </>
);
