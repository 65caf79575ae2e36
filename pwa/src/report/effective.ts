/** Reports as they stand on this phone, folded from the entries that it holds. */

import type { Problem, ReportBody } from "../kit/api";
import { remembered } from "../kit/remembered";
import { bodyOf } from "./body";
import type { LocalEntry, Sending } from "./local_entry";
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
  folded(entries, car);

const folded = remembered((entries: LocalEntry[], car: string | null): EffectiveReport[] => {
  const groups = new Map<string, LocalEntry[]>();
  for (const held of entries) {
    const { entry } = held;
    if (!isVersion(entry) || !entry.subject || (car !== null && entry.car !== car)) continue;
    const key = JSON.stringify([entry.event, entry.car, entry.subject]);
    const group = groups.get(key);
    if (group) group.push(held);
    else groups.set(key, [held]);
  }
  return [...groups.values()].map(standingAsBefore).sort((a, b) => byTime(first(b), first(a)));
});

const before = new WeakMap<LocalEntry, { group: LocalEntry[]; report: EffectiveReport }>();

// An entry that did not change is the same object: of thousands of reports a new one changes its own.
function standingAsBefore(group: LocalEntry[]): EffectiveReport {
  const [oldest] = group;
  const last = oldest && before.get(oldest);
  if (last?.group.length === group.length && last.group.every((one, at) => one === group[at])) return last.report;
  const report = standing(group);
  if (oldest) before.set(oldest, { group, report });
  return report;
}

const first = (report: EffectiveReport) => report.versions[0] as Version;

function standing(group: LocalEntry[]): EffectiveReport {
  const versions = group.map((held) => held.entry as Version).sort(byTime);
  const heads = headsOf(versions);
  const spoken = heads.filter((head) => head.kind !== "report.withdrawn");
  const oldest = versions[0] as Version;
  const worst = worstSending(group);
  return {
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
}

function worstSending(group: LocalEntry[]): { sending: Sending; problem: Problem | null } {
  const refused = group.find((held) => held.sending === "attention");
  if (refused) return { sending: "attention", problem: refused.problem };
  return { sending: group.some((held) => held.sending === "waiting") ? "waiting" : "sent", problem: null };
}
