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

/** Read a set-up. Errors: RangeError for a number that is none. */
export function readSetup(json: EventSetup): Setup {
  return {
    json,
    event: new Event(json),
    car_map: new CarMap(json.car_map),
    rates: new Rates(json.rate_table),
    van: new Map(Object.entries(json.van).map(([part, loaded]) => [part, Fraction.read(loaded)])),
  };
}
