/** Names of operations, numbers and days on the season's screen. */

import type { CarMap, OperationName } from "../../kit/api";
import { setApart } from "../../kit/language";
import { componentLabel, conditionLabel, zoneLabel } from "../labels";
import { queue } from "../words/queue";
import { common } from "../words/common";

/** "Wheel, Bent: Replace", with the place where the rate table's row is for one zone alone. */
export function operationLabel(map: CarMap, { component, condition, action, zone }: OperationName): string {
  const what = common.and(`${componentLabel(map, component)}, ${conditionLabel(condition)}`, queue.action(action));
  return zone ? common.and(zoneLabel(map, zone), what) : what;
}

/** One text for one operation of a rate table. */
export const operationKey = ({ component, condition, action, zone }: OperationName): string =>
  JSON.stringify([component, condition, action, zone]);

/** "1,234.5" for 1234.5: numbers as the server says them, thousands set apart. */
export const number = (value: number): string => setApart(String(value));

/** "1,234.50": an amount whose currency stands above it. */
export const bare = (amount: string): string => setApart(amount.replace(/^-/, "−"));
