/** What the crew is told at service out: done, not done, what to watch and when, what is aboard. */

import type { Entry, EntryOf, EventSetup, Job, Queue } from "../kit/api";
import { type LocalEntry, isKind } from "./local_entry";
import { byTime } from "./order";
import type { ShownPlan } from "./plan";
import type { ReleaseShown } from "./release";
import { countedOf } from "./counted";
import { entriesOf } from "./lists";

/** `why`: patched for now, passed until a service, or left to the crew on the road. */
interface Watch {
  job: string;
  why: "temporary" | "until" | "road";
  /** The service until which a look holds. */
  until: string | null;
  look: LookLeft;
}

/** What holds the car on a job: nobody looked yet, or an inspection failed it; null where nothing does. */
export type LookLeft = "needed" | "failed" | null;

interface NotDone {
  job: string;
  action: string;
  left_to: "next-service" | null;
  look: LookLeft;
}

/** Static once it is given: what was known in service. */
export interface Briefing {
  event: string;
  car: string;
  service: string;
  /** ISO time on this phone's clock. */
  made_at: string;
  /** Hash of the queue that it says the words of. */
  queue: string;
  release: ReleaseShown["shown"];
  done: { job: string; action: string }[];
  not_done: NotDone[];
  watch: Watch[];
  aboard: { part: string; qty: number }[];
  tools: string[];
}

export interface BriefingInput {
  setup: EventSetup;
  service: string;
  queue: Queue;
  /** Entries of the event. */
  entries: Entry[];
  /** The service's plan, where this phone holds one. */
  plan: ShownPlan | null;
  release: ReleaseShown["shown"];
  made_at: string;
}

/** Return the briefing of the queue's car at a service, as the log stands. */
export function briefingOf(input: BriefingInput): Briefing {
  const { setup, service, queue, release, made_at } = input;
  const valid = [...countedOf(input.entries, queue.car, setup)].sort(byTime);
  const road = queue.jobs.filter((job) => isForRoad(job, valid));
  const watch = queue.jobs.flatMap((job) => watchOf(job, valid, road.includes(job)));
  const watched = new Set(watch.filter((one) => one.why !== "until").map((one) => one.job));
  const open = queue.jobs.filter((job) => isOpen(job) && !watched.has(job.job));
  return {
    event: queue.event,
    car: queue.car,
    service,
    made_at,
    queue: queue.hash,
    release,
    done: doneIn(service, queue, valid),
    not_done: open.map(notDone),
    watch,
    ...aboard(road, input.plan),
  };
}

const isOver = (job: Job) => job.state === "finished" || job.state === "accepted";
const isOpen = (job: Job) => !isOver(job) || lookLeft(job) !== null;

function lookLeft({ safety_critical, inspection }: Job): LookLeft {
  if (!safety_critical || inspection === "passed") return null;
  return inspection === "failed" ? "failed" : "needed";
}

const notDone = (job: Job): NotDone => ({
  job: job.job,
  action: job.action,
  left_to: job.state === "deferred" ? "next-service" : null,
  look: lookLeft(job),
});

function doneIn(service: string, { jobs }: Queue, valid: Entry[]): Briefing["done"] {
  const finished = valid.filter(
    (entry): entry is EntryOf<"job.finished"> => isKind(entry, "job.finished") && entry.data.service === service,
  );
  const last = new Map(finished.map((entry) => [entry.subject ?? "", entry.data]));
  const isDone = (key: string) => jobs.every((job) => job.job !== key || isOver(job));
  return [...last]
    .filter(([key, data]) => !data.temporary && isDone(key))
    .map(([key, data]) => ({ job: key, action: data.action ?? "" }));
}

function isForRoad(job: Job, valid: Entry[]): boolean {
  if (job.state !== "deferred") return false;
  const last = valid.filter((entry) => isKind(entry, "job.deferred") && entry.subject === job.job).at(-1);
  return last !== undefined && isKind(last, "job.deferred") && last.data.to === "road";
}

function watchOf(job: Job, valid: Entry[], isRoad: boolean): Watch[] {
  const found: Watch[] = [];
  const common = { job: job.job, until: null, look: lookLeft(job) };
  if (isRoad) found.push({ ...common, why: "road" });
  if (job.state === "patched") found.push({ ...common, why: "temporary" });
  const look = valid
    .filter((entry) => isKind(entry, "inspection.passed", "inspection.failed") && entry.subject === job.job)
    .at(-1);
  if (look && isKind(look, "inspection.passed") && look.data.until) {
    found.push({ ...common, why: "until", until: look.data.until });
  }
  return found;
}

// The plan knows the tools; without one, the parts are those of the estimate that the van has.
function aboard(road: Job[], plan: ShownPlan | null): Pick<Briefing, "aboard" | "tools"> {
  const planned = road.map((job) => plan?.left_out.find((one) => one.job === job.job));
  const parts = road.flatMap((job, place) => planned[place]?.put_in_car ?? inVan(job));
  const qty = new Map<string, number>();
  for (const one of parts) qty.set(one.part, (qty.get(one.part) ?? 0) + one.qty);
  return {
    aboard: [...qty].map(([part, count]) => ({ part, qty: count })),
    tools: [...new Set(planned.flatMap((one) => one?.tools ?? []))],
  };
}

const inVan = (job: Job) =>
  job.estimate.parts.filter(({ short }) => short === 0).map(({ part, qty }) => ({ part, qty }));

/** Who was told of a briefing, and whether reports or work came in since. */
export interface Acknowledged {
  person: string;
  at: string;
  changed: boolean;
}

/** Return who acknowledged the briefing of a service, oldest first; `entries`: of the event, as this phone holds them. */
export function acknowledgedBy(
  entries: LocalEntry[],
  { car, service, queue }: Pick<Briefing, "car" | "service" | "queue">,
  setup: EventSetup,
): Acknowledged[] {
  const ofCar = entries.filter((held) => held.entry.car === car);
  const arrival = new Map(ofCar.map((held) => [held.entry.id, held.arrival]));
  const moved = ofCar.filter((held) => MOVES.test(held.entry.kind)).map((held) => held.arrival);
  const valid = [...countedOf(entriesOf(entries), car, setup)].sort(byTime);
  const last = new Map<string, Acknowledged>();
  for (const entry of valid) {
    if (!isKind(entry, "briefing.acknowledged") || entry.data.service !== service) continue;
    const { person, at } = entry;
    const since = arrival.get(entry.id) ?? 0;
    last.set(person, { person, at, changed: entry.data.queue !== queue && moved.some((one) => one > since) });
  }
  return [...last.values()];
}

// What changes a briefing; the queue's hash alone changes with every entry of the car.
const MOVES = /^(report|job|inspection|entry)\./;
