/** What is put down when reports are grouped: which groupings are taken over, and what is left of them. Pure. */

import type { Grouped, Grouping } from "./incidents";
import { idSet } from "./order";

/** What a person says of a hit. */
export type HitSaid = Omit<Required<Grouping>, "replaces">;

export const NOTHING_SAID: HitSaid = {
  reports: [],
  title: "",
  others_involved: false,
  others: "",
  property_hit: "",
  injured: "",
  reported_to: "",
};

/** Return what a grouping says, absent fields filled in. */
export function saidOf(grouping: Grouping): HitSaid {
  const { replaces: _, ...said } = grouping;
  return { ...NOTHING_SAID, ...said };
}

/**
 * Return the groupings to put down for what was said, the main one first.
 *
 * edited: the grouping that is changed, or null. A report that comes out of another grouping moves: what that one
 * still holds is put down again, with its words, since a grouping is taken over whole.
 */
export function groupingsFor(said: HitSaid, edited: string | null, standing: Iterable<Grouped>): Grouping[] {
  const chosen = new Set(said.reports);
  const others = [...standing].filter(({ id, data }) => id !== edited && data.reports.some((one) => chosen.has(one)));
  const replaces = idSet([...(edited ? [edited] : []), ...others.map((one) => one.id)]);
  const rests = others.map(({ id, data }) => ({
    ...data,
    reports: data.reports.filter((one) => !chosen.has(one)),
    replaces: [id],
  }));
  return [bare({ ...said, reports: idSet(chosen), replaces }), ...rests.filter(isWorthKeeping)];
}

/** Return the grouping that takes one apart: of no reports, in its place. */
export const takenApart = (grouping: string): Grouping => ({ reports: [], replaces: [grouping] });

// One report with nothing said of it is an incident of its own without a grouping.
const isWorthKeeping = (rest: Grouping): boolean =>
  rest.reports.length > 1 || (rest.reports.length === 1 && saysSomething(rest));

const saysSomething = (one: Grouping): boolean =>
  Boolean(one.title || one.others_involved || one.others || one.property_hit || one.injured || one.reported_to);

// What was not said takes no room in the entry.
function bare(grouping: Grouping): Grouping {
  const { reports, ...rest } = grouping;
  const said = Object.entries(rest).filter(([, value]) =>
    Array.isArray(value) ? value.length > 0 : typeof value === "string" ? value.trim() !== "" : value === true,
  );
  return {
    reports,
    ...Object.fromEntries(said.map(([key, value]) => [key, typeof value === "string" ? value.trim() : value])),
  };
}

/** Return a time for the id of an entry that takes over `older`: later than theirs, however wrong a clock was. */
export function laterThan(older: string[], now_ms: number): number {
  const times = older.map((id) => Number.parseInt(id.replaceAll("-", "").slice(0, 12), 16)).filter(Number.isFinite);
  return Math.max(now_ms, ...times.map((time) => time + 1));
}
