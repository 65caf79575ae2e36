/** What service puts down: work on jobs, looks, the release, corrections. */

import { findingsShown, type Known, lookedAt, releaseCovers, runningStarts, startsToStop } from "../report/covers";
import { currentService } from "../report/service";
import { entryById, type NewEntry } from "../store/entries";
import type { Core } from "./core";
import { inEntries, newEntry, type Speaker } from "./entry";
import type { Actions, Finish, Look } from "./model";
import { fail, save, togetherWith } from "./save";
import { said } from "../kit/said";

type JobActions = Pick<
  Actions,
  | "startJob"
  | "stopJob"
  | "finishJob"
  | "finishJobs"
  | "deferJob"
  | "inspect"
  | "releaseCar"
  | "adjustCost"
  | "voidEntry"
>;

/** Make the actions. */
export function jobActions(core: Core): JobActions {
  return {
    async startJob(job) {
      await save(core, (by, now) => [newEntry("job.started", job, {}, by, now)], said.started);
    },
    async stopJob(job) {
      const ends = (by: Speaker) => startsToStop(job, by.person, knownOf(core));
      await save(core, (by, now) => [newEntry("job.stopped", job, { ends: ends(by) }, by, now)], said.stoppedWork);
    },
    async finishJob(job, finish) {
      const data = finishedData(core, job, finish);
      const kept = finish.temporary ? said.patched : said.finished;
      await save(core, (by, now) => [finished(job, data, finish, by, now)], kept);
    },
    async finishJobs(done) {
      const all = done.map(({ job, finish }) => ({ job, finish, data: finishedData(core, job, finish) }));
      const build = (by: Speaker, now: number) =>
        all.map(({ job, finish, data }) => finished(job, data, finish, by, now));
      await save(core, build, said.jobsFinished(done.length));
    },
    async deferJob(job, to, reason) {
      const data = { covers: findingsShown(job, knownOf(core)), to, reason };
      await save(core, (by, now) => [newEntry("job.deferred", job, data, by, now)], said.deferred);
    },
    async inspect(jobs, look, pin) {
      await (await import("./pins")).demandOwnPin(core, pin);
      const known = knownOf(core);
      const kind = look.verdict === "passed" ? "inspection.passed" : "inspection.failed";
      const data = (job: string) => ({ covers: lookedAt(job, known), ...lookData(look) });
      const build = (by: Speaker, now: number) => jobs.map((job) => newEntry(kind, job, data(job), by, now));
      await save(core, build, said.looked(look.verdict));
    },
    async releaseCar(service, reason) {
      const lists = inEntries(releaseCovers(knownOf(core)));
      const data = (covers: string[]) => ({ service, covers, ...(reason ? { reason } : {}) });
      const build = (by: Speaker, now: number) =>
        lists.map((covers) => newEntry("car.released", null, data(covers), by, now));
      await save(core, build, said.released(service));
    },
    async adjustCost(job, amount, reason) {
      const data = { line: job, amount, reason };
      await save(core, (by, now) => [newEntry("cost.adjusted", job, data, by, now)], said.corrected);
    },
    voidEntry: (entry, reason) => voidEntry(core, entry, reason),
  };
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

async function voidEntry(core: Core, id: string, reason: string): Promise<void> {
  const entry = await entryById(await core.db, id);
  if (!entry) return fail(core, said.notHereToUndo);
  const data = { voids: togetherWith(id), reason };
  const { event, car, subject = null } = entry;
  await save(core, (by, now) => [newEntry("entry.voided", subject, data, { ...by, event, car }, now)], said.undone);
}
