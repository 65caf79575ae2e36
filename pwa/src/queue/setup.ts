/** Everything fixed beforehand that the queue needs, read from the set-up that a phone holds. */

import { CarMap } from "../fold/car_map";
import { Event } from "../fold/event";
import type { EventSetup } from "../kit/api";
import { Fraction } from "../kit/fraction";
import { Rates } from "./rates";

/** `json` is what the rest was read from; `van` is what it was loaded with, by part. */
export interface Setup {
  json: EventSetup;
  event: Event;
  car_map: CarMap;
  rates: Rates;
  van: ReadonlyMap<string, Fraction>;
}

/** Read a set-up. Errors: RangeError for a number that is none, and for a set-up that shows no prices and stock. */
export function readSetup(json: EventSetup): Setup {
  const { rate_table, van } = json;
  if (!rate_table || !van) throw new RangeError("the set-up has no rate table and stock");
  return {
    json,
    event: new Event(json),
    car_map: new CarMap(json.car_map),
    rates: new Rates(rate_table),
    van: new Map(Object.entries(van).map(([part, loaded]) => [part, Fraction.read(loaded)])),
  };
}
