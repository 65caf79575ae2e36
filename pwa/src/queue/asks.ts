/**
 * What is asked before a car leaves service: what stands between the work that was done on it and the road.
 *
 * Asked at its release, and held until answered there; the queue, its order and hash, and whether the car is on hold
 * know nothing of it. Common practice, no source.
 */

import { CarMap, splitKey } from "../fold/car_map";
import { standing } from "../fold/voids";
import type { DataOf, Entry, EventSetup, RateTable } from "../kit/api";
import { byCodePoint, sortedSet } from "../kit/code_points";
import { grouped } from "../kit/grouped";
import { isKind } from "../report/local_entry";
import { actsOn } from "./acts";

export const ASKS = ["nuts", "toe", "pedal", "tools"] as const;

/**
 * One thing asked at the release, of the whole car ("") or of one place; the entries behind it, ascending.
 *
 * `nuts` torqued on the ground; `toe` and steering wheel straight; `pedal` firm with the engine running; `tools` counted.
 * not_by: who may not answer for the nuts, since they worked there.
 */
export interface Ask {
  ask: (typeof ASKS)[number];
  place: string;
  entries: string[];
  not_by: string[];
}

export type Answered = NonNullable<DataOf["car.released"]["answers"]>[number];

/** A finished work, a start that none ends, or an inspection with the wheel off; by: who worked. */
interface Work {
  entry: string;
  job: string;
  by: ReadonlySet<string>;
  wheel_off: boolean;
  repair: boolean;
}

/** The access step that takes a wheel off, by its name. */
const WHEEL_OFF = "wheel-off";
/** Components whose repair takes the wheel off, whatever the rate table says. */
const ON_THE_HUB = ["wheel", "tyre", "studs-and-nuts"];
/** The group of arms, uprights and struts: work on their bolts moves the toe. */
const HOLDS_WHEEL = "wheel-hold";

/** What the rule reads of a set-up: the map, the rows of the rate table, which checks are made with the wheel off. */
interface Known {
  map: CarMap;
  rows: RateTable["operations"];
  off: ReadonlySet<string>;
}

/**
 * Return what is asked at the next release of a car, from all its entries in any order.
 *
 * Work is asked about until a standing `car.released` names its entry in an answer that is ok: so what arrives late is
 * asked about again, whatever the clocks. Tools are asked about at each release. Nuts come by the zone's name.
 */
export function asksOf(entries: Iterable<Entry>, setup: EventSetup): Ask[] {
  const known = knownOf(setup);
  const stand = standing(entries, setup);
  const works = worksIn(stand, known).sort((a, b) => byCodePoint(a.entry, b.entry));
  const releases = stand.filter((entry) => isKind(entry, "car.released"));
  const said = releases.flatMap((entry) => entry.data.answers ?? []).filter((row) => row.ok === true);
  const repairs = works.filter((work) => work.repair);
  const nuts = sortedSet(known.map.names).map((zone) => nutsOf(zone, works, said));
  const toe = ofCar(
    "toe",
    repairs.filter((work) => movesToe(work.job, known)),
    said,
  );
  const pedal = ofCar(
    "pedal",
    repairs.filter((work) => groupOf(work.job, known) === "brake"),
    said,
  );
  return [...[...nuts, toe, pedal].filter((one) => one.entries.length > 0), ofCar("tools", works, said)];
}

function knownOf(setup: EventSetup): Known {
  const off = (setup.check_lists ?? []).filter((row) => row.at === "off").map((row) => row.check);
  // A crew's phone has no prices, and so no rows: its map's groups still say most.
  return { map: new CarMap(setup.car_map), rows: setup.rate_table?.operations ?? [], off: new Set(off) };
}

function worksIn(stand: Entry[], known: Known): Work[] {
  const acts = stand.filter((entry) => /^(job|inspection)\./.test(entry.kind));
  return [...grouped(acts, (entry) => entry.subject ?? "")].flatMap(([job, mine]) => worksOn(job, mine, known));
}

function worksOn(job: string, mine: Entry[], known: Known): Work[] {
  const wheel_off = takesWheelOff(job, known);
  const done = actsOn(mine, []).repairs.map(({ id, repairers }) => ({ entry: id, by: repairers }));
  const ended = new Set(mine.flatMap((one) => (isKind(one, "job.finished") ? (one.data.ends ?? []) : [])));
  const begun = mine.filter((one) => one.kind === "job.started" && !ended.has(one.id));
  const repairs = [...done, ...begun.map(({ id, person }) => ({ entry: id, by: new Set([person]) }))];
  const seen = mine.filter((one) => seenBehindTheWheel(one, known));
  return [
    ...repairs.map((one) => ({ ...one, job, wheel_off, repair: true })),
    ...seen.map(({ id }) => ({ entry: id, by: new Set<string>(), job, wheel_off: true, repair: false })),
  ];
}

function nutsOf(place: string, works: Work[], said: Answered[]): Ask {
  const rows = said.filter((row) => row.ask === "nuts" && row.place === place);
  const here = works.filter((work) => work.wheel_off && splitKey(work.job)[0] === place);
  const left = here.filter((work) => !rows.some((row) => vouches(row, work)));
  return {
    ask: "nuts",
    place,
    entries: left.map((work) => work.entry),
    not_by: sortedSet(left.flatMap((work) => [...work.by])),
  };
}

/** Say whether an answer counts for the nuts after that work: somebody else than who worked there did it. */
function vouches(row: Answered, work: Work): boolean {
  return (row.entries ?? []).includes(work.entry) && !!row.by && !work.by.has(row.by);
}

function ofCar(ask: Ask["ask"], works: Work[], said: Answered[]): Ask {
  const answered = new Set(said.filter((row) => row.ask === ask).flatMap((row) => row.entries ?? []));
  const left = works.map((work) => work.entry).filter((entry) => !answered.has(entry));
  return { ask, place: "", entries: left, not_by: [] };
}

/** Say whether a repair there may have had the wheel off: what holds, steers or stops it, or by a row. */
function takesWheelOff(job: string, known: Known): boolean {
  const [zone, component] = splitKey(job);
  if (!isCorner(zone, known)) return false;
  const rows = known.rows.filter((row) => row.component === component && ["", zone].includes(row.zone ?? ""));
  return (
    ON_THE_HUB.includes(component) ||
    known.map.safetyCritical(zone, component) ||
    rows.some((row) => row.access.includes(WHEEL_OFF))
  );
}

/** Say whether a check that is made with the wheel off was made at a corner. */
function seenBehindTheWheel(entry: Entry, known: Known): boolean {
  if (!isKind(entry, "inspection.passed", "inspection.failed")) return false;
  const made = (entry.data.checks ?? []).some(({ check, ok }) => (ok ?? null) !== null && known.off.has(check));
  return made && isCorner(splitKey(entry.subject ?? "")[0], known);
}

function movesToe(job: string, known: Known): boolean {
  const [zone, component] = splitKey(job);
  const group = groupOf(job, known);
  return group === "steering" || (group === HOLDS_WHEEL && !ON_THE_HUB.includes(component) && isCorner(zone, known));
}

const groupOf = (job: string, { map }: Known) => map.groupOf(splitKey(job)[1]);
const isCorner = (zone: string, { map }: Known) => map.zones.get(zone)?.kind === "corner";
