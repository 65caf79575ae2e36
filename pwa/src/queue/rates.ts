/**
 * The rate table as values: three-point minutes, mechanics, access, parts and money.
 *
 * Expected minutes of a three-point estimate are (best + 4·likely + worst) / 6.
 */

import type { Condition, RateTable } from "../kit/api";
import { Currency, type Line } from "../kit/currency";
import { Fraction } from "../kit/fraction";

type RateTableJson = RateTable;
type OperationJson = RateTableJson["operations"][number];
type AccessJson = RateTableJson["access"][number];

/** Best, likely and worst minutes of a task. */
export class ThreePoint {
  readonly expected: Fraction;

  constructor(
    readonly best: Fraction,
    readonly likely: Fraction,
    readonly worst: Fraction,
  ) {
    this.expected = best.plus(likely.times(4)).plus(worst).dividedBy(6);
  }
}

/** A row of the rate table: what is done to a component in a condition ("" zone: in any zone). */
export interface Operation {
  action: string;
  minutes: ThreePoint;
  mechanics: number;
  access: string[];
  parts: ReadonlyMap<string, Fraction>;
  must_do: boolean;
  value: Fraction;
}

/** A step that opens the way to a job, once for the car or once a zone; minutes are elapsed. */
export interface Access {
  step: string;
  per: AccessJson["per"];
  minutes_open: Fraction;
  minutes_close: Fraction;
  mechanics: number;
}

/** A rate table, money in `currency`. Rows are read when they are first asked for: most never are. */
export class Rates {
  readonly version: string;
  readonly currency: Currency;
  readonly assess_minutes: ThreePoint;
  readonly access: ReadonlyMap<string, Access>;
  /** What one of each part costs. */
  readonly unit_costs: ReadonlyMap<string, Fraction>;
  readonly #labour_per_hour: Fraction;
  readonly #inspect_minutes: ThreePoint;
  readonly #inspect_minutes_by_group: ReadonlyMap<string | null, ThreePoint>;
  readonly #operations: ReadonlyMap<string, OperationJson>;
  readonly #inspect_access: ReadonlyMap<string, string[]>;
  /** Of each further inspection in a zone; null where it takes as long as the first. */
  readonly inspect_next_minutes: ThreePoint | null;

  constructor(json: RateTableJson) {
    const by_group = Object.entries(json.inspect_minutes_by_group);
    this.version = json.version;
    this.currency = new Currency(json.currency, json.decimals);
    this.assess_minutes = threePoint(json.assess_minutes);
    this.access = new Map(json.access.map((step) => [step.step, accessOf(step)]));
    this.unit_costs = new Map(json.parts.map((one) => [one.part, Fraction.read(one.unit_cost)]));
    this.#labour_per_hour = Fraction.read(json.labour_per_hour);
    this.#inspect_minutes = threePoint(json.inspect_minutes);
    this.#inspect_minutes_by_group = new Map(by_group.map(([group, points]) => [group, threePoint(points)]));
    // A set-up that an older server gave, and this phone still holds, has neither of the two.
    this.inspect_next_minutes = json.inspect_next_minutes ? threePoint(json.inspect_next_minutes) : null;
    this.#inspect_access = new Map(Object.entries(json.inspect_access ?? {}));
    this.#operations = new Map(json.operations.map((row) => [rowKey(row.component, row.condition, row.zone), row]));
  }

  /** Return the row for the component in that condition: the zone's own, else the common one; null where there is none. */
  operation(component: string, condition: Condition, zone: string): Operation | null {
    const row =
      this.#operations.get(rowKey(component, condition, zone)) ??
      this.#operations.get(rowKey(component, condition, ""));
    return row ? operationOf(row) : null;
  }

  /** Return the minutes of a look: the group's own, else the common ones. */
  inspect(group: string | null): ThreePoint {
    return this.#inspect_minutes_by_group.get(group ?? "") ?? this.#inspect_minutes;
  }

  /** Return the steps that an inspection needs open in a zone of this kind. */
  inspectAccess(kind: string): string[] {
    return this.#inspect_access.get(kind) ?? [];
  }

  /** Return one line of labour, rounded once. */
  labour(mechanic_minutes: Fraction): Line {
    return this.currency.round(mechanic_minutes.times(this.#labour_per_hour).dividedBy(60));
  }
}

const rowKey = (...parts: string[]) => JSON.stringify(parts);

function threePoint(points: string[]): ThreePoint {
  const [best = "", likely = "", worst = ""] = points;
  return new ThreePoint(Fraction.read(best), Fraction.read(likely), Fraction.read(worst));
}

function operationOf(row: OperationJson): Operation {
  const { action, mechanics, access, must_do } = row;
  return {
    action,
    minutes: threePoint([row.minutes_best, row.minutes_likely, row.minutes_worst]),
    mechanics,
    access,
    parts: new Map(row.parts.map(({ part, qty }) => [part, Fraction.read(qty)])),
    must_do,
    value: Fraction.read(row.value),
  };
}

function accessOf(step: AccessJson): Access {
  const [minutes_open, minutes_close] = [Fraction.read(step.minutes_open), Fraction.read(step.minutes_close)];
  return { ...step, minutes_open, minutes_close };
}
