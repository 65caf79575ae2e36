/** What a closing entry covers: the entries that this phone shows for the job, and no other. */

import type { CarMap, Entry, EventSetup, Job, Queue, ReportBody } from "../kit/api";
import { bodyOf } from "./body";
import type { Cached, LocalEntry } from "./local_entry";
import { isKind } from "./local_entry";
import { idSet } from "./order";
import { type Places, placedChecks } from "./placing";
import { isVersion } from "./versions";
import { headsIn } from "./heads";
import { isFailedPass } from "./voided";
import { countedOf } from "./counted";
import { entriesOf, ofCar } from "./lists";

/** What the phone knows of a car when a person acts. */
export interface Known {
  car: string;
  queue: Cached<Queue> | null;
  /** Entries of the event. */
  entries: LocalEntry[];
  setup: EventSetup | null;
}

/** Return the ids that finishing or deferring a job covers: its findings as shown. */
export function findingsShown(job: string, known: Known): string[] {
  return idSet([...(jobIn(job, known)?.findings ?? []), ...ownFindings(job, known)]);
}

/** Return the ids that a look at a job covers: what is uncovered, its findings, and this phone's own work on it. */
export function lookedAt(job: string, known: Known): string[] {
  const own = ownNew(known).filter(
    (entry) => isKind(entry, "job.finished", "inspection.failed", "inspection.passed") && entry.subject === job,
  );
  const shown = jobIn(job, known)?.uncovered ?? [];
  return idSet([...shown, ...findingsShown(job, known), ...own.filter(isOpen).map((entry) => entry.id)]);
}

/** Return the ids that releasing the car covers: the entries behind every job in the queue as shown. */
export function releaseCovers(known: Known): string[] {
  const shown = jobs(known).flatMap((job) => [...job.findings, ...job.uncovered]);
  const own = ownNew(known);
  const findings = headsIn(own).map((head) => head.id);
  const work = own.filter((entry) => isKind(entry, "job.finished", "inspection.failed"));
  return idSet([...shown, ...findings, ...work.map((entry) => entry.id)]);
}

/** Return the ids of a job's `job.started` entries that nothing has ended. */
export function runningStarts(job: string, known: Known): string[] {
  const valid = validOf(known);
  const ended = new Set(
    valid.flatMap((entry) => (isKind(entry, "job.stopped", "job.finished") ? (entry.data.ends ?? []) : [])),
  );
  const starts = valid.filter((entry) => isKind(entry, "job.started") && entry.subject === job);
  return idSet(starts.map((entry) => entry.id).filter((id) => !ended.has(id)));
}

/** Return the running starts that a person's stop ends: his own, or all where none is his (one scribe for many). */
export function startsToStop(job: string, person: string, known: Known): string[] {
  const running = runningStarts(job, known);
  const own = new Set(known.entries.filter((held) => held.entry.person === person).map((held) => held.entry.id));
  const his = running.filter((id) => own.has(id));
  return his.length > 0 ? his : running;
}

/** Return this phone's findings on a job (zone/component) that the held queue can't know of yet. */
function ownFindings(job: string, known: Known): string[] {
  const map = known.setup?.car_map ?? null;
  const heads = headsIn(ownNew(known));
  return heads.filter((head) => keysOf(bodyOf(head), map).includes(job)).map((head) => head.id);
}

/**
 * Return the keys, zone/component, that a body names directly.
 *
 * Its findings; its symptoms through the car map's checks; `<zone>/unknown` for an unknown symptom or a body with
 * neither. Knock-on findings are not shown before the server has answered, so nothing here covers them.
 */
export function keysOf(body: ReportBody, map: CarMap | null): string[] {
  const zone = body.zone ?? "unknown";
  const direct = body.findings.map((finding) => `${zone}/${finding.component}`);
  const checks = body.symptoms.flatMap((code) => {
    const keys = map ? placedChecks(map.symptoms[code]?.checks ?? [], zone, placesOf(map)) : [];
    return keys.length > 0 ? keys : [`${zone}/unknown`];
  });
  const keys = [...direct, ...checks];
  return keys.length > 0 ? idSet(keys) : [`${zone}/unknown`];
}

const placesOf = ({ zones }: CarMap): Places => ({
  names: Object.keys(zones),
  lists: (zone, component) => zones[zone]?.components.includes(component) ?? false,
  across: (zone) => zones[zone]?.across ?? null,
});

// What this phone wrote and the held queue can't hold: not sent, or accepted after the queue was asked for.
function ownNew(known: Known): Entry[] {
  const asked = known.queue?.arrivals ?? -1;
  const fresh = known.entries.filter((held) => held.mine && (held.sending !== "sent" || held.arrival > asked));
  const ids = new Set(fresh.map((held) => held.entry.id));
  const replaced = replacedHere(known);
  return validOf(known).filter((entry) => ids.has(entry.id) && !replaced.has(entry.id));
}

// Versions of this phone that another held version replaces are no longer shown.
function replacedHere(known: Known): Set<string> {
  const versions = ofCar(entriesOf(known.entries), known.car).filter(isVersion);
  const heads = new Set(headsIn(versions).map((head) => head.id));
  return new Set(versions.map((version) => version.id).filter((id) => !heads.has(id)));
}

const isOpen = (entry: Entry) => !isKind(entry, "inspection.passed") || isFailedPass(entry);

function validOf(known: Known): Entry[] {
  return countedOf(entriesOf(known.entries), known.car, known.setup);
}

function jobs(known: Known): Job[] {
  const answer = known.queue?.answer;
  return answer && answer.car === known.car ? answer.jobs : [];
}

function jobIn(job: string, known: Known): Job | undefined {
  return jobs(known).find((one) => one.job === job);
}
