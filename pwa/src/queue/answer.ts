/** The queue as screens read it: one JSON value with its hash, byte for byte what the server makes of the same entries. */

import { standing } from "../fold/voids";
import type { Entry, Queue } from "../kit/api";
import { canonical } from "../kit/canonical";
import { sha256 } from "../kit/sha256";
import { quantity, twoDecimals } from "../kit/currency";
import { Fraction, max } from "../kit/fraction";
import { grouped } from "../kit/grouped";
import type { QueueAsk } from "../kit/queue_ask";
import { isKind } from "../report/local_entry";
import { addUp, carLog, jobsOf, usedIn } from "./car";
import { type Estimate, estimate, inspectAccess } from "./estimate";
import type { Job } from "./job";
import { mustDo, type Ranked, rank, withNextInspections } from "./rank";
import type { Rates } from "./rates";
import { holdReasons, releasedUnseen } from "./release";
import { readSetup, type Setup } from "./setup";
import { totals } from "./totals";

type JobJson = Queue["jobs"][number];

/** Return the queue of one car, with `hash`: SHA-256 of its RFC 8785 form without `hash`. Errors: RangeError. */
export function queueAnswer(ask: QueueAsk): Queue {
  const setup = readSetup(ask.setup);
  const mine = ask.entries.filter((entry) => entry.event === ask.setup.event && entry.car === ask.car);
  const log = carLog(mine.filter(isWhole), setup);
  const in_order = rank(withEstimates(jobsOf(log, setup), setup), stockOf(ask, setup));
  const ranked = withNextInspections(in_order, setup);
  const jobs = ranked.map(({ job }) => job);
  const reasons = holdReasons(jobs, ask.set_aside, ask.set_aside_more);
  const releases = log.entries.filter((entry) => isKind(entry, "car.released"));
  const answer: Omit<Queue, "hash"> = {
    event: ask.setup.event,
    car: ask.car,
    entries: new Set(mine.map((entry) => entry.id)).size,
    rates: setup.rates.version,
    release: reasons.length > 0 ? "hold" : "nothing-open",
    hold_reasons: reasons,
    released_unseen: releasedUnseen(jobs, releases, setup.event),
    jobs: ranked.map((item) => jobJson(item, setup.rates)),
    totals: totals(ranked, setup.rates),
  };
  return { ...answer, hash: sha256(canonical(answer)) };
}

/** Say whether the server gave an entry as it is: of one that it keeps from this phone it says only that it is there. */
const isWhole = (entry: Entry) => !("withheld" in entry && entry.withheld === true);

function withEstimates(jobs: Job[], { car_map, rates }: Setup): [Job, Estimate][] {
  return jobs.map((job) => {
    const access = inspectAccess(job.zone, job.component, car_map, rates);
    return [job, estimate(job.zone, job.component, job.group, job.condition, rates, access)];
  });
}

/** What the van was loaded with, less what the repairs of all cars used, never below 0. */
function stockOf(ask: QueueAsk, setup: Setup): Map<string, Fraction> {
  const entries = ask.entries.filter((entry) => entry.event === ask.setup.event && isWhole(entry));
  const cars = grouped(entries, (entry) => entry.car);
  const used = addUp([...cars.values()].flatMap((ofCar) => [...usedIn(standing(ofCar, ask.setup))]));
  const left = (part: string, loaded: Fraction) => loaded.minus(used.get(part) ?? Fraction.ZERO);
  return new Map([...setup.van].map(([part, loaded]) => [part, max(Fraction.ZERO, left(part, loaded))]));
}

function jobJson(item: Ranked, rates: Rates): JobJson {
  const { job } = item;
  return {
    job: job.job,
    zone: job.zone,
    component: job.component,
    group: job.group,
    safety_critical: job.safety_critical,
    must_do: mustDo(job, item.estimate),
    condition: job.condition,
    action: item.estimate.action,
    no_rate: item.estimate.no_rate,
    knock_on: job.knock_on,
    retracted: job.retracted,
    state: job.state,
    inspection: job.inspection,
    findings: job.findings,
    uncovered: job.uncovered,
    reports: job.reports,
    photos: job.photos,
    two_versions: job.two_versions,
    estimate: estimateJson(item, rates),
  };
}

function estimateJson({ estimate: est, short }: Ranked, rates: Rates): JobJson["estimate"] {
  const { currency } = rates;
  return {
    minutes_best: twoDecimals(est.minutes.best),
    minutes_likely: twoDecimals(est.minutes.likely),
    minutes_worst: twoDecimals(est.minutes.worst),
    minutes_expected: twoDecimals(est.minutes.expected),
    mechanics: est.mechanics,
    access: est.access,
    labour: currency.text(est.labour),
    parts: [...est.parts].map(([part, qty]) => ({
      part,
      qty: quantity(qty),
      unit_cost: currency.text(currency.round(rates.unit_costs.get(part) ?? Fraction.ZERO)),
      short: quantity(short.get(part) ?? Fraction.ZERO),
    })),
    parts_cost: currency.text(est.parts_cost),
    total: currency.text(est.labour + est.parts_cost),
    currency: currency.code,
  };
}
