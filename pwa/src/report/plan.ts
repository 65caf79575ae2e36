/** A service plan as this phone holds it: what of it is under way or done since, who is next on what, what made it old. */

import type { Entry, EventSetup, Plan, PlanTask, Queue } from "../kit/api";
import { localIso, msOf } from "../kit/time";
import type { Cached, LocalEntry } from "./local_entry";
import { isKind } from "./local_entry";
import { byTime } from "./order";
import { countedOf } from "./counted";
import { entriesOf } from "./lists";

/** What was asked for. `null`: all mechanics, the service's own minutes, the whole service. */
export interface PlanWish {
  mechanics: number | null;
  minutes: number | null;
  /** Person → minute of the service from when he is there. */
  away: Record<string, number>;
  /** RFC 3339, from when the rest is planned. */
  at: string | null;
  /** RFC 3339, for a car that restarts: by when it has to be ready, in place of a service. */
  ready_by?: string;
  /** Which of the plans at hand is worked by; the one by the goals where nobody chose. */
  choice?: Choice;
  /** The plan that people worked by when this one was asked for: the server keeps to it as far as can be. */
  previous?: Previous | undefined;
}

/** The last minute that a request may name, past the end of every service: who is there from it is away for all of it. */
export const AWAY_FOR_ALL = 1440;

/** Say whether who is there from a minute on is away for all of the service. */
export const isAwayForAll = (minute: number | undefined): boolean => (minute ?? 0) >= AWAY_FOR_ALL;

const STEP_MS = 15_000;

/**
 * Return from when the rest is planned that is asked for now: the step of the plan's clock that this is in.
 *
 * Phones that hear the same news and work by the same plan so ask the same, and the server, which solves one plan after
 * the other, solves it once for all of them.
 */
export const restFrom = (now_ms: number): string => localIso(now_ms - (now_ms % STEP_MS));

export type Previous = Pick<PlanTask, "task" | "start_s" | "people" | "jobs">[];

export const PLAIN_WISH: PlanWish = { mechanics: null, minutes: null, away: {}, at: null };

/** Another plan of the same service that is at hand: everything whatever the chance, or in time and on hold. */
export type OtherPlan = Plan["others"][number];
export type Choice = Plan["choice"];

/** `lateness` is null where the server does not say. */
export type ShownPlan = Omit<Plan, "lateness"> & { lateness: Plan["lateness"] | null };

/** The jobs of an inspection; of all else its own, where it has one. A plan that an older app kept names no `jobs`. */
export const jobsOf = (task: PlanTask): string[] =>
  task.jobs?.length > 0 ? task.jobs : task.job === null ? [] : [task.job];

/** A plan with what was asked for; `arrivals` as of every answer. */
export interface HeldPlan {
  plan: ShownPlan;
  wish: PlanWish;
  /** When the server worked it out or was asked for it, ISO time on this phone's clock. */
  heard_at: string;
  arrivals: number;
  /** A newer one that changes something for somebody: it is worked by when somebody accepts it. */
  offer?: Omit<HeldPlan, "offer"> | null;
}

export interface Standing {
  state: "planned" | "under-way" | "done";
  /** Who said so and when, where an entry on this phone does. */
  by: string | null;
  at: string | null;
}

/**
 * Return how each task of a plan stands, by the plan and by what was put down since on any phone.
 *
 * A finish or a look that the plan knew already is in it; only a later one (by this phone's count) ends a task here.
 */
export function standings(held: HeldPlan, entries: LocalEntry[], setup: EventSetup): Map<string, Standing> {
  const { plan, arrivals } = held;
  const ofCar = entries.filter((one) => one.entry.car === plan.car);
  const valid = [...countedOf(entriesOf(entries), plan.car, setup)].sort(byTime);
  const fresh = new Set(ofCar.filter((one) => one.arrival > arrivals).map((one) => one.entry.id));
  return new Map(plan.tasks.map((task) => [task.task, standingOf(task, plan.service, valid, fresh)]));
}

function standingOf(task: PlanTask, service: string, valid: Entry[], fresh: Set<string>): Standing {
  const later = valid.filter((entry) => fresh.has(entry.id));
  const done =
    task.kind === "inspect" ? inspected(task, later) : later.filter((one) => ends(one, task, service)).at(-1);
  if (done) return { state: "done", by: done.person, at: done.at };
  const begun = valid.filter((entry) => begins(entry, task, service, valid)).at(-1);
  if (begun) return { state: "under-way", by: begun.person, at: begun.at };
  return { state: task.state, by: null, at: null };
}

function ends(entry: Entry, task: PlanTask, service: string): boolean {
  if (isKind(entry, "task.finished")) return entry.subject === task.task && entry.data.service === service;
  if (entry.subject !== task.job) return false;
  return task.kind === "work" && isKind(entry, "job.finished");
}

/** An inspection is done with the last of its jobs: the entry that ends it, where each of them has one. */
function inspected(task: PlanTask, fresh: Entry[]): Entry | undefined {
  const ended = jobsOf(task).map((job) =>
    fresh.filter((one) => one.subject === job && isKind(one, "inspection.passed", "inspection.failed")).at(-1),
  );
  return ended.every(Boolean) ? fresh.filter((one) => ended.includes(one)).at(-1) : undefined;
}

function begins(entry: Entry, task: PlanTask, service: string, valid: Entry[]): boolean {
  if (isKind(entry, "task.started")) {
    const isIts = entry.subject === task.task && entry.data.service === service;
    return isIts && !valid.some((other) => ends(other, task, service) && byTime(entry, other) <= 0);
  }
  if (!isKind(entry, "job.started") || task.kind !== "work" || entry.subject !== task.job) return false;
  return !valid.some(
    (other) => isKind(other, "job.stopped", "job.finished") && (other.data.ends ?? []).includes(entry.id),
  );
}

/** Return the tasks of a person in the order of the clock. */
export function tasksOf(plan: ShownPlan, person: string): PlanTask[] {
  return plan.tasks
    .filter((task) => task.people.includes(person))
    .sort((a, b) => a.start_s - b.start_s || a.end_s - b.end_s || (a.task < b.task ? -1 : 1));
}

/** Return a person's next task: what is under way before what is planned, the earliest first; null where all is done. */
export function nextOf(plan: ShownPlan, person: string, standing: Map<string, Standing>): PlanTask | null {
  const left = tasksOf(plan, person).filter((task) => standing.get(task.task)?.state !== "done");
  return left.find((task) => standing.get(task.task)?.state === "under-way") ?? left[0] ?? null;
}

/** Return the plan's people, the one who uses the phone first where he is among them. */
export function peopleOf(plan: ShownPlan, first: string | null): string[] {
  const all = plan.people.map((one) => one.person);
  return first !== null && all.includes(first) ? [first, ...all.filter((one) => one !== first)] : all;
}

/** Whether a plan still stands: `work`: only what was planned went on; `news`: the queue itself changed. */
export type Change = "none" | "work" | "news";

/**
 * Say what has happened since a plan was worked out, as far as this phone knows.
 *
 * The queue's hash changes with each entry of the car, even where none of its jobs does: the same hash says that nothing
 * came in, another one says nothing. What the phone has not sent yet no plan could know.
 */
export function changeSince(held: HeldPlan, entries: LocalEntry[], queue: Cached<Queue> | null): Change {
  const { plan, arrivals } = held;
  const here = queue?.answer.car === plan.car ? queue.answer : null;
  if (here?.hash === plan.queue) return "none";
  const later = entries.filter((one) => one.entry.car === plan.car && one.arrival > arrivals && one.sending === "sent");
  const kinds = later.map((one) => one.entry.kind);
  if (plan.stale || kinds.some((kind) => kind.startsWith("report.")) || hasOtherRates(held, queue)) return "news";
  return kinds.some((kind) => WORK.test(kind)) ? "work" : "none";
}

const WORK = /^(job|task|inspection|service|entry)\./;

// A queue that was heard before the plan may be the older of the two.
function hasOtherRates({ plan, heard_at }: HeldPlan, queue: Cached<Queue> | null): boolean {
  if (!queue || queue.answer.car !== plan.car || queue.answer.rates === plan.rates) return false;
  return (msOf(queue.heard_at) ?? 0) > (msOf(heard_at) ?? 0);
}

/** What a server is told of the plan that is shown; nothing where one of 0.1 made it, which would refuse to be told. */
export function shownOf(held: HeldPlan | null): Previous | undefined {
  if (!held?.plan.starts_at) return undefined;
  return held.plan.tasks.map(({ task, start_s, people, jobs }) => ({ task, start_s, people, jobs }));
}
