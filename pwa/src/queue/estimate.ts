/** What a job takes by the rate table: action, three-point minutes, mechanics, access, parts, money. */

import type { CarMap } from "../fold/car_map";
import type { Condition } from "../kit/api";
import { byCodePoint, sortedSet } from "../kit/code_points";
import type { Line } from "../kit/currency";
import { Fraction, sum } from "../kit/fraction";
import type { Operation, Rates, ThreePoint } from "./rates";

/** A job's estimate, access left out; money rounded to lines, minutes exact. */
export interface Estimate {
  action: string;
  no_rate: boolean;
  minutes: ThreePoint;
  mechanics: number;
  access: string[];
  parts: ReadonlyMap<string, Fraction>;
  row_must_do: boolean;
  value: Fraction;
  labour: Line;
  parts_cost: Line;
}

/** Expected minutes × mechanics. */
export const mechanicMinutes = (est: Estimate) => est.minutes.expected.times(est.mechanics);

/** Value per mechanic-minute, exact; 0 without a row. */
export const worth = (est: Estimate) => est.value.dividedBy(mechanicMinutes(est));

/**
 * Return the estimate for a component in a condition.
 *
 * Unknown is inspected, with the steps of `inspect_access` open; what has no row is assessed and never dropped.
 */
export function estimate(
  zone: string,
  component: string,
  group: string | null,
  condition: Condition,
  rates: Rates,
  inspect_access: string[],
): Estimate {
  if (condition === "unknown") return inspection(rates.inspect(group), inspect_access, rates);
  const row = rates.operation(component, condition, zone);
  return row ? byRow(row, rates) : rowless("assess", true, rates.assess_minutes, [], rates);
}

/** Return the estimate of a further inspection in the same zone; null where it takes as long as any. */
export function nextInspection(access: string[], rates: Rates): Estimate | null {
  return rates.inspect_next_minutes && inspection(rates.inspect_next_minutes, access, rates);
}

/** Return the steps that an inspection needs open: the component's own, else those of the zone's kind. Ascending. */
export function inspectAccess(zone: string, component: string, car_map: CarMap, rates: Rates): string[] {
  const known = car_map.zones.get(zone);
  return sortedSet(car_map.inspectAccess(component) ?? (known ? rates.inspectAccess(known.kind) : []));
}

function inspection(minutes: ThreePoint, access: string[], rates: Rates): Estimate {
  return rowless("inspect", false, minutes, access, rates);
}

function rowless(action: string, no_rate: boolean, minutes: ThreePoint, access: string[], rates: Rates): Estimate {
  return {
    action,
    no_rate,
    minutes,
    mechanics: 1,
    access,
    parts: new Map(),
    row_must_do: false,
    value: Fraction.ZERO,
    labour: rates.labour(minutes.expected),
    parts_cost: 0n,
  };
}

function byRow(row: Operation, rates: Rates): Estimate {
  const { action, minutes, mechanics, value } = row;
  const costs = [...row.parts].map(([part, qty]) => (rates.unit_costs.get(part) ?? Fraction.ZERO).times(qty));
  return {
    action,
    no_rate: false,
    minutes,
    mechanics,
    access: sortedSet(row.access),
    parts: new Map([...row.parts].sort(([a], [b]) => byCodePoint(a, b))),
    row_must_do: row.must_do,
    value,
    labour: rates.labour(minutes.expected.times(mechanics)),
    parts_cost: rates.currency.round(sum(costs)),
  };
}
