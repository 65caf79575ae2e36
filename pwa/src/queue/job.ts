/** One job from the findings that name it and the acts upon it: its state, inspection and condition. */

import { type CarMap, splitKey } from "../fold/car_map";
import type { Event } from "../fold/event";
import type { Finding } from "../fold/report";
import type { How } from "../fold/said";
import type { Condition, InspectionState, JobState } from "../kit/api";
import { byCodePoint, sortedSet } from "../kit/code_points";
import type { Acts, Pass, Repair } from "./acts";

/** States of a job with nothing left to repair. */
export const OVER: ReadonlySet<JobState> = new Set<JobState>(["finished", "accepted"]);

/** Conditions that a pass accepts unrepaired on a safety-critical job, and the one that it accepts until a service. */
const ACCEPTABLE: ReadonlySet<Condition> = new Set<Condition>(["unknown", "marked", "worn"]);
const ACCEPTABLE_UNTIL: Condition = "bent";

/** A report's finding that no pass covers, with what a release may name to cover it. */
interface Unpassed {
  entry: string;
  stage: string | null;
  covered_by: string[];
}

/** A job as it stands, before the rate table is laid beside it. All lists of ids ascend. */
export interface Job {
  job: string;
  zone: string;
  component: string;
  group: string | null;
  safety_critical: boolean;
  condition: Condition;
  knock_on: boolean;
  retracted: boolean;
  two_versions: boolean;
  state: JobState;
  inspection: InspectionState;
  findings: string[];
  uncovered: string[];
  reports: string[];
  photos: string[];
  unpassed: Unpassed[];
}

/** What a job's fold needs beside its own entries: the set-up, and the services that the car came into. */
export class Context {
  constructor(
    readonly event: Event,
    readonly car_map: CarMap,
    readonly entered: ReadonlySet<string>,
  ) {}

  /**
   * Say whether a pass good `until` a service covers nothing any more.
   *
   * It runs out once the car entered that service, or a later one of the itinerary. What names no service of the
   * itinerary counts as not given.
   */
  runOut(until: string | null): boolean {
    const limit = this.event.serviceIndex(until);
    if (limit === null) return false;
    return [...this.entered].some((service) => (this.event.serviceIndex(service) ?? -1) >= limit);
  }
}

/** Return the job `key`, or null where neither a finding nor a repair names it. */
export function workOut(key: string, reported: Finding[], acts: Acts, context: Context): Job | null {
  const findings = [...reported, ...acts.findings].sort((a, b) => byCodePoint(a.entry, b.entry));
  if (findings.length + acts.repairs.length === 0) return null;
  const [zone, component] = splitKey(key);
  const critical = context.car_map.safetyCritical(zone, component);
  const sums = new Sums(context.car_map.groupOf(component), critical, findings, acts, context);
  const left = sums.left();
  return {
    job: key,
    zone,
    component,
    group: sums.group,
    safety_critical: critical,
    condition: worst(component, left.length > 0 ? left : findings, context.car_map),
    knock_on: allAre("knock-on", findings),
    retracted: allAre("retracted", findings),
    two_versions: findings.some((finding) => finding.two_versions),
    state: sums.state(),
    inspection: critical ? sums.inspection() : "not-needed",
    findings: sortedSet(findings.map((finding) => finding.entry)),
    uncovered: critical ? sums.uncovered() : [],
    reports: sortedSet(reported.map((finding) => finding.report)),
    photos: sortedSet(findings.flatMap((finding) => finding.photos)),
    unpassed: critical ? sums.unpassed(reported) : [],
  };
}

/** Which findings and repairs of one job are covered, by what; covers are looked up by the ids that they name. */
class Sums {
  readonly #repairs: ReadonlyMap<string, Repair[]>;
  readonly #works: ReadonlyMap<string, Repair[]>;
  readonly #hasUntil: (pass: Pass) => boolean;
  readonly #passes: ReadonlyMap<string, Pass[]>;
  readonly #passed: ReadonlySet<string>;
  readonly #done: ReadonlySet<string>;
  readonly #patched: ReadonlySet<string>;

  constructor(
    readonly group: string | null,
    readonly critical: boolean,
    readonly findings: Finding[],
    readonly acts: Acts,
    context: Context,
  ) {
    this.#repairs = byNamed(acts.repairs);
    this.#works = byNamed(acts.works);
    this.#hasUntil = ({ data }) => context.event.serviceIndex(data.until ?? null) !== null;
    const others = acts.passes.filter(({ person }) => !acts.unended.has(person));
    this.#passes = byNamed(others.filter((pass) => mayPass(pass, group, context)));
    this.#passed = this.#entriesWhere((finding) => this.#isPassed(finding));
    this.#done = this.#entriesWhere((finding) => naming(finding, this.#repairs).some((repair) => !repair.temporary));
    this.#patched = this.#entriesWhere((finding) => naming(finding, this.#repairs).some((repair) => repair.temporary));
  }

  /** Return the findings that are open or patched. */
  left(): Finding[] {
    return this.findings.filter(({ entry }) => !this.#done.has(entry) && !this.#passed.has(entry));
  }

  /** Return the findings that nothing was done about. */
  open(): Finding[] {
    return this.left().filter(({ entry }) => !this.#patched.has(entry));
  }

  /** Return the job's state by the rules' order: all done, all done or accepted, patched, and so on. */
  state(): JobState {
    if (this.findings.every(({ entry }) => this.#done.has(entry))) return "finished";
    if (this.left().length === 0) return "accepted";
    if (this.open().length === 0) return "patched";
    if (this.acts.under_way) return "started";
    return this.open().every((finding) => isCovered(finding, this.acts.deferred)) ? "deferred" : "open";
  }

  /** Return where the inspection of a safety-critical job stands. */
  inspection(): InspectionState {
    const uncovered = new Set(this.uncovered());
    if (uncovered.size === 0) return "passed";
    return this.acts.findings.some(({ entry }) => uncovered.has(entry)) ? "failed" : "needed";
  }

  /** Return the findings and repairs that no pass covers. */
  uncovered(): string[] {
    const findings = this.findings.map(({ entry }) => entry).filter((entry) => !this.#passed.has(entry));
    const repairs = this.acts.repairs.filter((repair) => !this.#isPassedRepair(repair)).map(({ id }) => id);
    return sortedSet([...findings, ...repairs]);
  }

  /** Return the reports' findings that no pass covers, by entry. */
  unpassed(reported: Finding[]): Unpassed[] {
    const left = reported.filter(({ entry }) => !this.#passed.has(entry));
    return left.map(({ entry, stage, covered_by }) => ({ entry, stage, covered_by }));
  }

  #entriesWhere(is: (finding: Finding) => boolean): Set<string> {
    return new Set(this.findings.filter(is).map(({ entry }) => entry));
  }

  /** Somebody passed the finding who is no repairer of any finished work that covers it. */
  #isPassed(finding: Finding): boolean {
    const works = naming(finding, this.#works);
    const isRepairer = (person: string) => works.some((work) => work.repairers.has(person));
    const isAccepted = this.#acceptedBy(finding);
    return naming(finding, this.#passes).some((pass) => !isRepairer(pass.person) && isAccepted(pass));
  }

  #isPassedRepair(repair: Repair): boolean {
    const isAccepted = this.critical && repair.temporary ? this.#hasUntil : anyPass;
    return (this.#passes.get(repair.id) ?? []).some((pass) => !repair.repairers.has(pass.person) && isAccepted(pass));
  }

  /** Return which passes may accept the finding: what is bad on a safety-critical job is repaired first. */
  #acceptedBy(finding: Finding): (pass: Pass) => boolean {
    const repairs = naming(finding, this.#repairs);
    if (!this.critical || repairs.some((repair) => !repair.temporary)) return anyPass;
    if (repairs.length === 0 && ACCEPTABLE.has(finding.condition)) return anyPass;
    return repairs.length > 0 || finding.condition === ACCEPTABLE_UNTIL ? this.#hasUntil : noPass;
  }
}

const anyPass = () => true;
const noPass = () => false;

/** Say whether this pass counts at all: an inspector's, checked, still good, a cage seen by an official. */
function mayPass(pass: Pass, group: string | null, context: Context): boolean {
  const { until, shown_to, official_said } = pass.data;
  if (!context.event.hasRole(pass.person, "inspector") || context.runOut(until ?? null)) return false;
  if (pass.ok.size === 0 || !context.event.mustChecks(group).every((check) => pass.ok.has(check))) return false;
  return group !== "cage" || (saysSomething(shown_to) && saysSomething(official_said));
}

// As the server strips text: the separators U+001C to U+001F are space to it, the byte order mark is not.
// biome-ignore lint/suspicious/noControlCharactersInRegex: these four are the point
const LETTER = /[^\p{White_Space}\u001c-\u001f]/u;
const saysSomething = (text: string | null | undefined) => LETTER.test(text ?? "");

function isCovered(finding: Finding, covers: ReadonlySet<string>): boolean {
  return finding.covered_by.some((name) => covers.has(name));
}

function byNamed<Act extends Repair | Pass>(acts: Act[]): Map<string, Act[]> {
  const named = new Map<string, Act[]>();
  for (const act of acts) {
    for (const name of act.covers) named.set(name, [...(named.get(name) ?? []), act]);
  }
  return named;
}

function naming<Act>(finding: Finding, named: ReadonlyMap<string, Act[]>): Act[] {
  return finding.covered_by.flatMap((name) => named.get(name) ?? []);
}

function worst(component: string, findings: Finding[], car_map: CarMap): Condition {
  const rank = (condition: Condition) => car_map.severity(component, condition);
  return findings.reduce<Condition>((a, { condition }) => (rank(condition) > rank(a) ? condition : a), "unknown");
}

function allAre(how: How, findings: Finding[]): boolean {
  return findings.length > 0 && findings.every((finding) => finding.how === how);
}
