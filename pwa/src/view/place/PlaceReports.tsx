/** What was reported at a place: each report once, with its photos, however many jobs came of it. */

import type { EventSetup, Job } from "../../kit/api";
import { reportsOf, type EffectiveReport } from "../../report/effective";
import { Photos } from "../bits/Photo";
import { useOpen } from "../bits/useOpen";
import { Voices } from "../bits/Voices";
import { type Voice, voicesBySubject } from "../../report/voices";
import { personName, timeOf } from "../labels";
import { whatSaid, whereSaid } from "../log/said";
import type { CarScreen } from "../screen";
import { common } from "../words/common";
import { places as words } from "../words/places";

/** So many stand in sight; the others are one tap away. */
const IN_SIGHT = 1;

export function PlaceReports(props: CarScreen & { jobs: Job[] }) {
  const { state, setup, car, actions, jobs } = props;
  const others = useOpen();
  const names = new Set(jobs.flatMap((job) => job.reports));
  const found = reportsOf(state.entries, car).filter((report) => names.has(report.report));
  const shown = others.isOpen ? found : found.slice(0, IN_SIGHT);
  if (found.length === 0) return null;
  return (
    <section class="place-reports" aria-label={words.reports}>
      {shown.map((report) => (
        <Report key={report.report} {...{ report, setup, actions }} voices={spokenOf(report, props)} />
      ))}
      {found.length > shown.length && (
        <button type="button" class="button quiet" onClick={others.open}>
          {words.moreReports(found.length - shown.length)}
        </button>
      )}
    </section>
  );
}

function spokenOf(report: EffectiveReport, { state, setup, car }: CarScreen): Voice[] {
  return voicesBySubject(state.entries, car, setup, state.identity?.person).get(report.report) ?? [];
}

interface ReportProps extends Pick<CarScreen, "actions"> {
  report: EffectiveReport;
  setup: EventSetup;
  voices: Voice[];
}

function Report({ report, setup, actions, voices }: ReportProps) {
  const { body } = report;
  const cause = body.cause === "unknown" ? "" : (common.cause[body.cause] ?? body.cause);
  const who = `${personName(setup, report.person)} ${timeOf(setup, report.at)}`;
  return (
    <div class="place-report">
      <Photos photos={body.photos} photoUrl={actions.photoUrl} />
      <div>
        <p class="strong">{[cause, whereSaid(body)].filter(Boolean).join(", ")}</p>
        <p class="soft small">{who}</p>
        <p class="small">{whatSaid(body, setup.car_map)}</p>
        {body.note && <p class="note">{body.note}</p>}
        <Voices {...{ voices, setup, actions }} />
      </div>
    </div>
  );
}
