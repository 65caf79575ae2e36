/** Saves what is done in service: work on jobs, inspections, the release, corrections. Loaded when it is first used. */

import { laterMessages } from "../kit/later_messages";
import { findingsShown, type Known, lookedAt, releaseCovers, runningStarts, startsToStop } from "../report/covers";
import { entriesOf } from "../report/lists";
import type { Signed } from "../report/looks";
import { currentService } from "../report/service";
import { addEntries, type NewEntry } from "../store/entries";
import { addSigned } from "../store/pin_signed";
import type { Core } from "./core";
import { inEntries, newEntry, type Speaker } from "./entry";
import type { Finish, FittedPart, Inspection, Release } from "./model";
import { demandOwnPin } from "./pins";
import { save } from "./save";

// What an action covers is what the queue on this phone shows for the job (its `findings`, `uncovered`).

/** Begin a job. Errors: UserError. */
export async function startJob(core: Core, job: string): Promise<void> {
  await save(core, (by, now) => [newEntry("job.started", job, {}, by, now)], laterMessages.started);
}

/** Stop work on a job that the speaker is on. Errors: UserError. */
export async function stopJob(core: Core, job: string): Promise<void> {
  const ends = (by: Speaker) => startsToStop(job, by.person, knownOf(core));
  await save(core, (by, now) => [newEntry("job.stopped", job, { ends: ends(by) }, by, now)], laterMessages.stoppedWork);
}

/** A job is done. Errors: UserError. */
export async function finishJob(core: Core, job: string, finish: Finish): Promise<void> {
  const data = finishedData(core, job, finish);
  const kept = finish.temporary ? laterMessages.patched : laterMessages.finished;
  await save(core, (by, now) => [finished(job, data, finish, by, now)], kept);
}

/** Several jobs are done, saved in one go: an entry for each, undone together. Errors: UserError. */
export async function finishJobs(core: Core, done: { job: string; finish: Finish }[]): Promise<void> {
  const all = done.map(({ job, finish }) => ({ job, finish, data: finishedData(core, job, finish) }));
  const build = (by: Speaker, now: number) => all.map(({ job, finish, data }) => finished(job, data, finish, by, now));
  await save(core, build, laterMessages.jobsFinished(done.length));
}

/**
 * A part with a life went in. `repair`: what is recorded as a repair with it, where an inspection has to follow. Both
 * are saved in one go. Errors: UserError.
 */
export async function partFitted(core: Core, job: string, part: FittedPart, repair: Finish | null): Promise<void> {
  const { since, ...said } = part;
  const data = { ...said, ...(since === null ? {} : { since }) };
  const done = repair && finishedData(core, job, repair);
  const build = (by: Speaker, now: number) => [
    ...(repair && done ? [finished(job, done, repair, by, now)] : []),
    newEntry("part.fitted", job, data, by, now),
  ];
  await save(core, build, repair ? laterMessages.fittedInspect : laterMessages.fitted);
}

/** A job is left for later. Errors: UserError. */
export async function deferJob(core: Core, job: string, to: "next-service" | "road", reason: string): Promise<void> {
  const data = { covers: findingsShown(job, knownOf(core)), to, reason };
  await save(core, (by, now) => [newEntry("job.deferred", job, data, by, now)], laterMessages.deferred);
}

/**
 * Save one inspection of one or several jobs: an entry for each, with the checks that concern it, covering all that was
 * shown of it. `pin`: the own one. Errors: UserError.
 */
export async function inspect(core: Core, inspection: Inspection, pin: string): Promise<void> {
  const add = await addedByPin(core, pin);
  const known = knownOf(core);
  const { signed, ...said } = inspection;
  const build = (by: Speaker, now: number) => signed.map((one) => inspected(one, said, known, by, now));
  const passed = signed.filter((one) => one.verdict === "passed").length;
  await save(core, build, laterMessages.inspected(passed, signed.length - passed), add);
}

/**
 * Release the car from a service, covering what is behind every job. Where a reason is given, as for each release on hold, it
 * is signed with the own PIN. Errors: UserError.
 */
export async function releaseCar(core: Core, service: string, said: Release): Promise<void> {
  const { reason, answers, pin } = said;
  const add = reason ? await addedByPin(core, pin ?? "") : undefined;
  const lists = inEntries(releaseCovers(knownOf(core)));
  // What was answered stands in the first entry: the others only name more of what is covered.
  const data = (covers: string[], at: number) => ({
    service,
    covers,
    ...(reason ? { reason } : {}),
    ...(at === 0 && answers.length > 0 ? { answers } : {}),
  });
  const build = (by: Speaker, now: number) =>
    lists.map((covers, at) => newEntry("car.released", null, data(covers, at), by, now));
  await save(core, build, laterMessages.released(service), add);
}

/** Correct what a job costs. `amount`: decimal text in the event's currency. Errors: UserError. */
export async function adjustCost(core: Core, job: string, amount: string, reason: string): Promise<void> {
  const data = { line: job, amount, reason };
  await save(core, (by, now) => [newEntry("cost.adjusted", job, data, by, now)], laterMessages.corrected);
}

/** Return what writes entries signed by the key that the own PIN unlocks, where this device has one. Errors: UserError. */
async function addedByPin(core: Core, pin: string): Promise<typeof addEntries> {
  const key = await demandOwnPin(core, pin);
  return key ? (db, drafts, held_at) => addSigned(db, drafts, held_at, key) : addEntries;
}

// What is covered is what this phone shows: a queue that may not be shown here counts for nothing.
function knownOf(core: Core): Known {
  const { state, held } = core.snapshot();
  return { car: state.car ?? "", queue: state.queue, entries: state.advice ? held : state.entries, setup: state.setup };
}

type Finished = ReturnType<typeof finishedData>;

function finished(job: string, data: Finished, { said_at }: Finish, by: Speaker, now: number): NewEntry {
  return { ...newEntry("job.finished", job, data, by, now), ...(said_at ? { said_at } : {}) };
}

function finishedData(core: Core, job: string, { said_at: _, ...finish }: Finish) {
  const known = knownOf(core);
  const entries = entriesOf(known.entries);
  const service = currentService(entries, known.car, known.setup)?.service;
  return {
    covers: findingsShown(job, known),
    ends: runningStarts(job, known),
    ...finish,
    ...(service ? { service } : {}),
  };
}

function inspected(one: Signed, said: Omit<Inspection, "signed">, known: Known, by: Speaker, now: number): NewEntry {
  const kind = one.verdict === "passed" ? "inspection.passed" : "inspection.failed";
  const filled = Object.fromEntries(Object.entries(said).filter(([, value]) => value !== null && value !== ""));
  return newEntry(kind, one.job, { covers: lookedAt(one.job, known), checks: one.checks, ...filled }, by, now);
}
