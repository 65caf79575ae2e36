/** Where the car is in the day, in the app bar's two lines. Pure. */

import type { EventSetup } from "../../kit/api";
import type { AppState } from "../../flow/model";
import { clockIn, msOf } from "../../kit/time";
import { remembered } from "../../kit/remembered";
import { entriesOf, ofKind } from "../../report/lists";
import { lastBeforeService, lastSeen } from "../../report/prefill";
import { currentService, type CurrentService } from "../../report/service";
import { countedOf } from "../../report/counted";
import { shell as words } from "../words/shell";

/** What the entries of a car say of its day, whatever the time is. */
interface Day {
  current: CurrentService | null;
  /** Place of the last stage that is done, reported or not, and of the last service that was come to; -1 for none. */
  place: number;
  visited: number;
}

const dayOf = remembered((entries: AppState["entries"], car: string, setup: EventSetup): Day => {
  const valid = countedOf(entriesOf(entries), car, setup);
  const order = setup.stages.map((one) => one.stage);
  const last = lastSeen(valid, order)?.place ?? -1;
  const services = setup.services.map((one) => one.service);
  const taps = [...ofKind(valid, "service.entered"), ...ofKind(valid, "service.left")];
  const visited = taps.map((one) => services.indexOf(one.data.service));
  return {
    current: currentService(entriesOf(entries), car, setup),
    place: Math.max(last, lastBeforeService(valid, order, setup)),
    visited: Math.max(-1, ...visited),
  };
});

/** Return title and context: the service and when it is due out, else the last stage and the service after it. */
export function itineraryLines({ entries, now }: AppState, setup: EventSetup, car: string): [string, string?] {
  const { current, place, visited } = dayOf(entries, car, setup);
  if (current) return [words.service(current.service), dueOut(current, setup, now)];
  const stage = setup.stages[place];
  const next = setup.services.slice(visited + 1).find((one) => placeOf(one.after, setup) >= place);
  const at = next?.arrive ? msOf(next.arrive) : null;
  const title = stage ? words.after(stage.stage) : setup.name;
  return [title, next && at !== null ? words.next(next.service, clockIn(setup.timezone, at)) : undefined];
}

const placeOf = (after: string | null, setup: EventSetup) => setup.stages.findIndex((one) => one.stage === after);

function dueOut({ due_out_ms }: CurrentService, setup: EventSetup, now_ms: number): string | undefined {
  if (due_out_ms === null) return undefined;
  const left = Math.floor(due_out_ms / 60_000) - Math.floor(now_ms / 60_000);
  const out = words.out(clockIn(setup.timezone, due_out_ms));
  if (Math.abs(left) > 99) return out;
  return `${out} · ${left < 0 ? words.over(-left) : words.left(left)}`;
}
