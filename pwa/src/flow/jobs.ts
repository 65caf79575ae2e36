/** Saves what is done in service: work on jobs, inspections, the release, corrections. Loaded when it is first used. */

import { messages } from "../kit/messages";
import { findingsShown, type Known, lookedAt, releaseCovers, runningStarts, startsToStop } from "../report/covers";
import { currentService } from "../report/service";
import type { NewEntry } from "../store/entries";
import type { Core } from "./core";
import { inEntries, newEntry, type Speaker } from "./entry";
import type { Finish, Look } from "./model";
import { demandOwnPin } from "./pins";
import { save } from "./save";

// What an action covers is what the queue on this phone shows for the job (its `findings`, `uncovered`).

/** Begin a job. Errors: UserError. */
export async function startJob(core: Core, job: string): Promise<void> {
  await save(core, (by, now) => [newEntry("job.started", job, {}, by, now)], messages.started);
}

/** Stop work on a job that the speaker is on. Errors: UserError. */
export async function stopJob(core: Core, job: string): Promise<void> {
  const ends = (by: Speaker) => startsToStop(job, by.person, knownOf(core));
  await save(core, (by, now) => [newEntry("job.stopped", job, { ends: ends(by) }, by, now)], messages.stoppedWork);
}

/** A job is done. Errors: UserError. */
export async function finishJob(core: Core, job: string, finish: Finish): Promise<void> {
  const data = finishedData(core, job, finish);
  const kept = finish.temporary ? messages.patched : messages.finished;
  await save(core, (by, now) => [finished(job, data, finish, by, now)], kept);
}

/** Several jobs are done, saved in one go: an entry for each, undone together. Errors: UserError. */
export async function finishJobs(core: Core, done: { job: string; finish: Finish }[]): Promise<void> {
  const all = done.map(({ job, finish }) => ({ job, finish, data: finishedData(core, job, finish) }));
  const build = (by: Speaker, now: number) => all.map(({ job, finish, data }) => finished(job, data, finish, by, now));
  await save(core, build, messages.jobsFinished(done.length));
}

/** A job is left for later. Errors: UserError. */
export async function deferJob(core: Core, job: string, to: "next-service" | "road", reason: string): Promise<void> {
  const data = { covers: findingsShown(job, knownOf(core)), to, reason };
  await save(core, (by, now) => [newEntry("job.deferred", job, data, by, now)], messages.deferred);
}

/** Save one inspection of one or several jobs: an entry for each, covering all that was shown. `pin`: the own one. Errors: UserError. */
export async function inspect(core: Core, jobs: string[], look: Look, pin: string): Promise<void> {
  await demandOwnPin(core, pin);
  const known = knownOf(core);
  const kind = look.verdict === "passed" ? "inspection.passed" : "inspection.failed";
  const data = (job: string) => ({ covers: lookedAt(job, known), ...lookData(look) });
  const build = (by: Speaker, now: number) => jobs.map((job) => newEntry(kind, job, data(job), by, now));
  await save(core, build, messages.looked(look.verdict));
}

/** Release the car from a service, covering what is behind every job. Errors: UserError. */
export async function releaseCar(core: Core, service: string, reason: string): Promise<void> {
  const lists = inEntries(releaseCovers(knownOf(core)));
  const data = (covers: string[]) => ({ service, covers, ...(reason ? { reason } : {}) });
  const build = (by: Speaker, now: number) =>
    lists.map((covers) => newEntry("car.released", null, data(covers), by, now));
  await save(core, build, messages.released(service));
}

/** Correct what a job costs. `amount`: decimal text in the event's currency. Errors: UserError. */
export async function adjustCost(core: Core, job: string, amount: string, reason: string): Promise<void> {
  const data = { line: job, amount, reason };
  await save(core, (by, now) => [newEntry("cost.adjusted", job, data, by, now)], messages.corrected);
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
  const entries = known.entries.map((held) => held.entry);
  const service = currentService(entries, known.car, known.setup)?.service;
  return {
    covers: findingsShown(job, known),
    ends: runningStarts(job, known),
    ...finish,
    ...(service ? { service } : {}),
  };
}

function lookData(look: Look) {
  const { verdict: _, checks, ...said } = look;
  return { checks, ...Object.fromEntries(Object.entries(said).filter(([, value]) => value !== null && value !== "")) };
}
