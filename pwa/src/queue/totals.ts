/** What is left to do, added up: access steps once each, labour and parts in rounded lines. */

import type { Queue } from "../kit/api";
import { byCodePoint } from "../kit/code_points";
import { total, twoDecimals } from "../kit/currency";
import { type Fraction, sum } from "../kit/fraction";
import { mechanicMinutes } from "./estimate";
import { isOver, type Ranked } from "./rank";
import type { Access, Rates } from "./rates";

/** An access step opened and closed once: for the car (zone "") or for one zone. */
interface AccessLine {
  step: Access;
  zone: string;
}

/** Return each step that jobs need once: once for the car, or once a zone, in name order. */
function accessLines(ranked: Ranked[], rates: Rates): AccessLine[] {
  const lines = new Map<string, AccessLine>();
  for (const { job, estimate } of ranked) {
    for (const name of estimate.access) {
      const step = rates.access.get(name);
      const zone = step?.per === "zone" ? job.zone : "";
      if (step) lines.set(JSON.stringify([name, zone]), { step, zone });
    }
  }
  return [...lines.values()].sort((a, b) => byCodePoint(a.step.step, b.step.step) || byCodePoint(a.zone, b.zone));
}

/** Return the totals over the jobs neither finished nor accepted, as they stand in JSON. */
export function totals(ranked: Ranked[], rates: Rates): Queue["totals"] {
  const todo = ranked.filter(({ job }) => !isOver(job));
  const steps = accessLines(todo, rates).map(accessMinutes);
  const access = sum(steps);
  const work = sum(todo.map(({ estimate }) => mechanicMinutes(estimate)));
  const labour = total([...todo.map(({ estimate }) => estimate.labour), ...steps.map((one) => rates.labour(one))]);
  const parts = total(todo.map(({ estimate }) => estimate.parts_cost));
  return {
    mechanic_minutes: twoDecimals(work.plus(access)),
    access_minutes: twoDecimals(access),
    labour: rates.currency.text(labour),
    parts_cost: rates.currency.text(parts),
    total: rates.currency.text(labour + parts),
  };
}

/** (open + close) × mechanics. */
function accessMinutes({ step }: AccessLine): Fraction {
  return step.minutes_open.plus(step.minutes_close).times(step.mechanics);
}
