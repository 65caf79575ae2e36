/** Money by driver, day, part of the car or car: one at a time, as bars. */

import { useState } from "preact/hooks";
import type { Costs, EventSetup } from "../../kit/api";
import { carLabel, componentLabel, personName } from "../labels";
import { costs as words } from "../words/costs";
import { CostChart } from "./CostChart";
import type { MoneyRow } from "./CostTable";
import { dayLabel } from "./day";

type Dimension = "driver" | "day" | "component" | "car";

function rowsOf(by: Dimension, costs: Costs, setup: EventSetup): MoneyRow[] {
  if (by === "driver")
    return costs.by_driver.map((row) => ({
      ...row,
      label: row.driver === null ? words.noDriver : personName(setup, row.driver),
    }));
  if (by === "day")
    return costs.by_day.map((row) => ({ ...row, label: row.day === null ? words.noDay : dayLabel(row.day) }));
  if (by === "component")
    return costs.by_component.map((row) => ({
      ...row,
      label: componentLabel(setup.car_map, row.component ?? "unknown"),
    }));
  return costs.by_car.map((row) => {
    const car = setup.cars.find((one) => one.car === row.car);
    return { ...row, label: car ? carLabel(car) : (row.car ?? "") };
  });
}

export function ByOther({ costs, setup }: { costs: Costs; setup: EventSetup }) {
  const [by, setBy] = useState<Dimension>("driver");
  const name = words.dimension[by] ?? by;
  return (
    <CostChart
      id="by-other"
      title={words.byOf(name)}
      column={name}
      currency={costs.currency}
      rows={rowsOf(by, costs, setup)}
      before={
        <label>
          <span class="label">{words.more}</span>
          <select value={by} onChange={(event) => setBy(event.currentTarget.value as Dimension)}>
            {Object.entries(words.dimension).map(([value, label]) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </select>
        </label>
      }
    />
  );
}
