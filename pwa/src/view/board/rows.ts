/** What stands on the board: who is on what, what comes next, the newest reports. Pure. */

import type { EventSetup, Job, PlanTask } from "../../kit/api";
import type { AppState, HeldPlan } from "../../flow/model";
import { isKind } from "../../report/local_entry";
import { nextOf, peopleOf, type Standing } from "../../report/plan";
import { reportsOf, type EffectiveReport } from "../../report/effective";
import { entriesOf } from "../../report/lists";
import { counted, startsOn } from "../job/history";
import { personName, timeOf } from "../labels";
import { whatSaid } from "../log/said";
import { taskLabel } from "../plan/labels";
import { board as words } from "../words/board";

/** The lines by what they are about. */
export type ByPart<T> = Record<"now" | "next" | "reports", T>;

export interface Row {
  key: string;
  label: string;
  text: string;
  /** `on`: somebody is at it now; `new`: it came since the board was opened. Drawn as a shape beside the words. */
  mark: "on" | "new" | null;
}

export interface Shown {
  state: Pick<AppState, "entries" | "queue">;
  setup: EventSetup;
  car: string;
  held: HeldPlan | null;
  standing: Map<string, Standing>;
  /** Ids of the reports' versions that were here when the board was opened. */
  known: ReadonlySet<string>;
}

interface Doing {
  task: PlanTask;
  people: string[];
  on: boolean;
}

const MOST_FINDINGS = 2;

/** Return the rows of a board. `shown.setup` may have its places shortened: see `shortPlaces`. */
export function rowsOf(shown: Shown): ByPart<Row[]> {
  const doing = [...ofPlan(shown), ...ofStarts(shown)];
  const now = doing.map((one) => doingRow(shown.setup, one));
  const idle = idlePeople(shown, doing).map((person) => idleRow(shown.setup, person));
  const next = nextTasks(shown, new Set(doing.map((one) => one.task.task)));
  return {
    now: orSaid([...now, ...idle], words.nobody),
    next: orSaid(
      next.map((task) => row(task.task, words.next, taskLabel(shown.setup, task))),
      shown.held || shown.state.queue ? words.nothingNext : words.queueUnknown,
    ),
    reports: orSaid(reportRows(shown), words.noReports),
  };
}

/** Places as a crew says them across a car: "FL" for the front left corner. */
export function shortPlaces(setup: EventSetup): EventSetup {
  const zones = Object.entries(setup.car_map.zones).map(([zone, one]) => {
    return [zone, { ...one, label: words.corners[zone] ?? one.label }] as const;
  });
  return { ...setup, car_map: { ...setup.car_map, zones: Object.fromEntries(zones) } };
}

const row = (key: string, label: string, text: string, mark: Row["mark"] = null): Row => ({ key, label, text, mark });

const orSaid = (rows: Row[], nothing: string): Row[] => (rows.length > 0 ? rows : [row("none", "", nothing)]);

function doingRow(setup: EventSetup, { task, people, on }: Doing): Row {
  const what = taskLabel(setup, task);
  const names = people.map((one) => personName(setup, one)).join(", ");
  return row(`${task.task} ${names}`, names, on ? what : words.afterwards(what), on ? "on" : null);
}

const idleRow = (setup: EventSetup, person: string) => row(person, personName(setup, person), words.nothingMore);

/** Each person of the plan with the next task, those who share one together; what is under way before what is to come. */
function ofPlan({ held, standing }: Shown): Doing[] {
  if (!held) return [];
  const found = new Map<string, Doing>();
  for (const person of peopleOf(held.plan, null)) {
    const task = nextOf(held.plan, person, standing);
    if (!task) continue;
    const one = found.get(task.task) ?? { task, people: [], on: standing.get(task.task)?.state === "under-way" };
    one.people.push(person);
    found.set(task.task, one);
  }
  return [...found.values()].sort((a, b) => Number(b.on) - Number(a.on) || a.task.start_s - b.task.start_s);
}

/** Who is on a job that no plan gives him: all starts where there is no plan. */
function ofStarts(shown: Shown): Doing[] {
  const { state, setup, car, held } = shown;
  const planned = new Set(held?.plan.people.map((one) => one.person));
  const entries = entriesOf(state.entries);
  const valid = counted(entries, car, setup);
  const jobs = [...new Set(valid.filter((one) => isKind(one, "job.started")).map((one) => one.subject ?? ""))];
  return jobs.flatMap((key) => {
    const people = [...new Set(startsOn(valid, key).map((start) => start.person))].filter((one) => !planned.has(one));
    return people.length > 0 ? [{ task: taskOf(key, jobOf(shown, key)), people, on: true }] : [];
  });
}

function idlePeople({ held }: Shown, doing: Doing[]): string[] {
  const busy = new Set(doing.flatMap((one) => one.people));
  return held ? peopleOf(held.plan, null).filter((person) => !busy.has(person)) : [];
}

/** The plan's tasks that nobody is on and nobody has next, by its clock; without a plan the open jobs, as the queue has them. */
function nextTasks({ state, held, standing }: Shown, taken: Set<string>): PlanTask[] {
  if (held) {
    const left = held.plan.tasks.filter((one) => standing.get(one.task)?.state === "planned" && !taken.has(one.task));
    return left.sort((a, b) => a.start_s - b.start_s);
  }
  const open = (state.queue?.answer.jobs ?? []).filter((job) => needsLook(job) || !isDone(job));
  return open.map((job) => taskOf(job.job, job)).filter((task) => !taken.has(task.task));
}

const isDone = (job: Job) => job.state === "finished" || job.state === "accepted";
const needsLook = (job: Job) => job.safety_critical && job.inspection !== "passed";

const jobOf = ({ state }: Shown, key: string) => state.queue?.answer.jobs.find((one) => one.job === key) ?? null;

/** A job as a task of a plan, so that both are worded alike. */
function taskOf(key: string, job: Job | null): PlanTask {
  const look = job === null || isDone(job) || job.action === "inspect";
  const action = look ? "inspect" : job.action;
  return {
    task: `${action} ${key}`,
    kind: look ? "inspect" : "work",
    job: key,
    jobs: look ? [key] : [],
    step: null,
    zone: key.split("/")[0] ?? "",
    start_s: 0,
    end_s: 0,
    people: [],
    critical: 0,
    state: "planned",
  };
}

/** What came since the board was opened before what was there, each the newest first. */
function reportRows({ state, setup, car, known }: Shown): Row[] {
  const arrivals = new Map(state.entries.map((one) => [one.entry.id, one.arrival]));
  const fresh = (report: EffectiveReport) =>
    Math.max(-1, ...report.versions.filter((one) => !known.has(one.id)).map((one) => arrivals.get(one.id) ?? 0));
  return reportsOf(state.entries, car)
    .filter((report) => !report.withdrawn)
    .map((report) => ({ report, came: fresh(report) }))
    .sort((a, b) => b.came - a.came)
    .map(({ report, came }) => reportRow(report, setup, came >= 0));
}

function reportRow(report: EffectiveReport, setup: EventSetup, isNew: boolean): Row {
  const label = isNew ? words.fresh : timeOf(setup, report.at);
  return row(report.report, label, shortSaid(report, setup), isNew ? "new" : null);
}

/** The first that a report says, and how much more it says. */
function shortSaid({ body }: EffectiveReport, setup: EventSetup): string {
  const findings = body.findings.slice(0, MOST_FINDINGS);
  const symptoms = body.symptoms.slice(0, MOST_FINDINGS - findings.length);
  const more = body.findings.length + body.symptoms.length - findings.length - symptoms.length;
  const said = whatSaid({ ...body, findings, symptoms }, setup.car_map);
  return more > 0 ? words.andMore(said, more) : said;
}
