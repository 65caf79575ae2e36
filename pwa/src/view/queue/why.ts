/** Why a job is in the queue, in words: the reports behind it, what they say of it, who and where. Pure. */

import type { EventSetup, Job } from "../../kit/api";
import { bodyOf } from "../../report/body";
import { grouped } from "../../kit/grouped";
import { remembered } from "../../kit/remembered";
import { type LocalEntry, isKind } from "../../report/local_entry";
import type { EffectiveReport } from "../../report/effective";
import { entriesOf } from "../../report/lists";
import type { Version } from "../../report/versions";
import { withoutVoided } from "../../report/voided";
import { componentLabel, conditionLabel, personName, symptomLabel, timeOf } from "../labels";
import { whatSaid, whereSaid } from "../log/said";
import { common } from "../words/common";
import { queue } from "../words/queue";

/** One version of one report that is behind a job. */
export interface Reason {
  id: string;
  /** "SS2, km 6.1 · Maru 10:42 · Stone". */
  head: string;
  /** "SS2, km 6.1". */
  where: string;
  /** "Wheel bent", or what was noticed or hit next to it. */
  says: string;
  note: string;
  photos: string[];
}

const placesOf = remembered(
  (reports: readonly EffectiveReport[]) => new Map(reports.map((report, place) => [report.report, place])),
);

/** The reports behind the job as this phone holds them, of one car; a report that is not here yet is left out. */
export function reasonsOf(job: Job, reports: readonly EffectiveReport[], setup: EventSetup): Reason[] {
  return reportsBehind(job, reports).flatMap((report) =>
    behind(job, report, setup).map((version) => reasonOf(job, version, report, setup)),
  );
}

/** Where the first reason happened; undefined where none is here. A row of a long queue says no more of them. */
export function whereOf(job: Job, reports: readonly EffectiveReport[], setup: EventSetup): string | undefined {
  for (const report of reportsBehind(job, reports)) {
    const [version] = behind(job, report, setup);
    if (version) return whereSaid(bodyOf(version));
  }
  return undefined;
}

function reportsBehind(job: Job, reports: readonly EffectiveReport[]): EffectiveReport[] {
  const places = placesOf(reports);
  return job.reports
    .flatMap((name) => places.get(name) ?? [])
    .sort((one, other) => one - other)
    .flatMap((place) => reports[place] ?? []);
}

/** The versions that stand; but where only older ones named the job, the newest of those that did. */
function behind(job: Job, report: EffectiveReport, setup: EventSetup): Version[] {
  const names = (version: Version) => namedIn(job, version, setup) !== null;
  if (report.heads.some(names)) return report.heads;
  const older = report.versions.filter(names).at(-1);
  if (older) return [older];
  return report.heads.filter((head) => head.kind !== "report.withdrawn");
}

function reasonOf(job: Job, version: Version, report: EffectiveReport, setup: EventSetup): Reason {
  const body = bodyOf(version);
  const who = `${personName(setup, version.person)} ${timeOf(setup, version.at)}`;
  const cause = body.cause === "unknown" ? "" : (common.cause[body.cause] ?? body.cause);
  const says = namedIn(job, version, setup) ?? queue.nextTo(whatSaid(body, setup.car_map));
  return {
    id: version.id,
    where: whereSaid(body),
    head: [whereSaid(body), who, cause].filter(Boolean).join(" · "),
    says: report.heads.includes(version) ? says : queue.saidOnce(says),
    note: body.note,
    photos: body.photos,
  };
}

/** What a version says of the job itself, in words; null where the job only lies next to what it says. */
function namedIn(job: Job, version: Version, setup: EventSetup): string | null {
  const body = bodyOf(version);
  const map = setup.car_map;
  if (version.kind === "report.withdrawn") return null;
  const direct = body.zone === job.zone ? body.findings.find((one) => one.component === job.component) : undefined;
  if (direct) return common.partSaid(componentLabel(map, direct.component), conditionLabel(direct.condition));
  const noticed = body.symptoms.filter((code) => map.symptoms[code]?.checks.includes(job.job));
  return noticed.length ? queue.because(noticed.map((code) => symptomLabel(map, code)).join(", ")) : null;
}

const repairsOf = remembered((entries: LocalEntry[], setup: EventSetup) =>
  grouped(
    withoutVoided(entriesOf(entries), setup).filter((entry) => isKind(entry, "job.finished", "inspection.passed")),
    (entry) => entry.subject,
  ),
);

/** Whether somebody signed this job off before and something is open on it again. */
export function reportedAgain(job: Job, entries: LocalEntry[], setup: EventSetup): boolean {
  const open = job.safety_critical ? job.inspection !== "passed" : job.state !== "finished" && job.state !== "accepted";
  if (!open || job.inspection === "failed") return false;
  const left = new Set(job.safety_critical ? job.uncovered : job.findings);
  return (repairsOf(entries, setup).get(job.job) ?? []).some((entry) => {
    const covers = entry.data.covers ?? [];
    return covers.length > 0 && !covers.some((id) => left.has(id)) && !left.has(entry.id);
  });
}
