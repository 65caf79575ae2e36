/** Reports as they stand on this phone, folded from the entries that it holds. */

import type { Problem, ReportBody } from "../kit/api";
import { bring, type Change, keptUp } from "../kit/growing";
import { bodyOf } from "./body";
import type { LocalEntry, Sending } from "./local_entry";
import { idOfHeld } from "./lists";
import { byTime } from "./order";
import { headsOf, isVersion, type Version } from "./versions";

/** One report with all that was said of it. */
export interface EffectiveReport {
  report: string;
  event: string;
  car: string;
  /** Oldest first. */
  versions: Version[];
  heads: Version[];
  /** More than one head: people changed it unseen by each other. */
  two_versions: boolean;
  /** Every head withdraws it. */
  withdrawn: boolean;
  /** The newest head that is not a withdrawal; empty for a withdrawn report. */
  body: ReportBody;
  /** Who filed it and when, by the first version held. */
  person: string;
  at: string;
  /** Whether any version was written on this phone. */
  mine: boolean;
  /** The worst of its versions written here: refused, waiting, sent. */
  sending: Sending;
  problem: Problem | null;
}

/** Return the reports among held entries (of one car, or all if `car` is null), newest first; the list is shared. */
export const reportsOf = (entries: LocalEntry[], car: string | null = null): readonly EffectiveReport[] =>
  foldOf(car)(entries);

type Fold = (entries: LocalEntry[]) => EffectiveReport[];
const folds = new Map<string | null, Fold>();

function foldOf(car: string | null): Fold {
  const fold =
    folds.get(car) ??
    keptUp(
      (entries) => folded(entries, car),
      (before, changes) => refolded(before, changes, car),
    );
  folds.set(car, fold);
  return fold;
}

const isOf = ({ entry }: LocalEntry, car: string | null) =>
  isVersion(entry) && Boolean(entry.subject) && (car === null || entry.car === car);

const reportOf = ({ entry }: LocalEntry) => JSON.stringify([entry.event, entry.car, entry.subject]);

function folded(entries: LocalEntry[], car: string | null): EffectiveReport[] {
  const groups = new Map<string, LocalEntry[]>();
  for (const held of entries) {
    if (!isOf(held, car)) continue;
    const key = reportOf(held);
    const group = groups.get(key);
    if (group) group.push(held);
    else groups.set(key, [held]);
  }
  return [...groups.values()].map(standing).sort(newestFirst);
}

const newestFirst = (one: EffectiveReport, other: EffectiveReport) => byTime(first(other), first(one));

/** Of thousands of reports only those are made again of which a version came. */
function refolded(before: EffectiveReport[], changes: Change<LocalEntry>[], car: string | null): EffectiveReport[] {
  const reports = [...before];
  for (const { was, now } of changes) {
    if (was && isOf(was, car)) changeOne(reports, was, { was });
    if (now && isOf(now, car)) changeOne(reports, now, { now });
  }
  return reports;
}

/** Put a version into its report, or take it out. */
function changeOne(reports: EffectiveReport[], { entry }: LocalEntry, change: Change<LocalEntry>): void {
  const place = reports.findIndex(
    (one) => one.report === entry.subject && one.car === entry.car && one.event === entry.event,
  );
  const [stood] = place < 0 ? [] : reports.splice(place, 1);
  const group = bring((stood && groups.get(stood)) ?? [], [change], idOfHeld);
  if (group.length === 0) return;
  const report = standing(group);
  const older = reports.findIndex((one) => newestFirst(report, one) < 0);
  reports.splice(older < 0 ? reports.length : older, 0, report);
}

const groups = new WeakMap<EffectiveReport, LocalEntry[]>();

const first = (report: EffectiveReport) => report.versions[0] as Version;

function standing(group: LocalEntry[]): EffectiveReport {
  const versions = group.map((held) => held.entry as Version).sort(byTime);
  const heads = headsOf(versions);
  const spoken = heads.filter((head) => head.kind !== "report.withdrawn");
  const oldest = versions[0] as Version;
  const worst = worstSending(group);
  const report = {
    report: oldest.subject as string,
    event: oldest.event,
    car: oldest.car,
    versions,
    heads,
    two_versions: heads.length > 1,
    withdrawn: spoken.length === 0,
    body: bodyOf(spoken.at(-1) ?? (heads.at(-1) as Version)),
    person: oldest.person,
    at: oldest.at,
    mine: group.some((held) => held.mine),
    ...worst,
  };
  groups.set(report, group);
  return report;
}

function worstSending(group: LocalEntry[]): { sending: Sending; problem: Problem | null } {
  const refused = group.find((held) => held.sending === "attention");
  if (refused) return { sending: "attention", problem: refused.problem };
  return { sending: group.some((held) => held.sending === "waiting") ? "waiting" : "sent", problem: null };
}
