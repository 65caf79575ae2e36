/** What this phone may say of the release: hold, nothing open in the log, or not known. */

import type { EventSetup, HoldReason, Queue } from "../kit/api";
import { messages } from "../kit/messages";
import { remembered } from "../kit/remembered";
import { clockIn, clockOf, msOf } from "../kit/time";
import type { Cached, LocalEntry } from "./local_entry";
import { entriesOf } from "./lists";
import { lastServiceEntered, officialOf } from "./service";

/** `why` are sentences: what the log may not hold yet. They stand beside a hold, too. `heard_at`: the server, if ever. */
export type ReleaseShown =
  | { shown: "hold"; reasons: HoldReason[]; heard_at: string | null; why: string[] }
  | { shown: "nothing-open"; heard_at: string }
  | { shown: "not-known"; why: string[] };

export interface ReleaseInput {
  car: string;
  /** The server's last answer. */
  queue: Cached<Queue> | null;
  /** What this phone worked out and shows in its place, or null. */
  own: Queue | null;
  /** Entries of the event. */
  entries: LocalEntry[];
  setup: EventSetup | null;
  now_ms: number;
}

/**
 * Return what may be shown.
 *
 * "Nothing open" only if the server's last queue says so, this phone has no unsent entry of the car, every entry
 * of the car that it holds was here before that queue was asked for, and the server was heard since the car came in.
 * So never from what this phone worked out itself; a hold is shown from it with its reasons.
 */
export function releaseShown(input: ReleaseInput): ReleaseShown {
  const { queue, own } = input;
  const why = notKnown(input);
  if (own?.car === input.car) return ownRelease(own, queue?.heard_at ?? null, [messages.notKnown.own, ...why]);
  if (!queue || queue.answer.car !== input.car) return { shown: "not-known", why };
  const { heard_at, answer } = queue;
  if (answer.release === "hold") return { shown: "hold", reasons: answer.hold_reasons, heard_at, why };
  if (answer.release !== "nothing-open" || why.length > 0) return { shown: "not-known", why };
  return { shown: "nothing-open", heard_at };
}

function ownRelease(own: Queue, heard_at: string | null, why: string[]): ReleaseShown {
  if (own.release !== "hold") return { shown: "not-known", why };
  return { shown: "hold", reasons: own.hold_reasons, heard_at, why };
}

function notKnown(input: ReleaseInput): string[] {
  if (!input.queue || input.queue.answer.car !== input.car) {
    return [messages.notKnown.never];
  }
  return [unsent(input), cameIn(input), wasDue(input), newer(input)].filter((why) => why !== null);
}

function ofCar(input: ReleaseInput): LocalEntry[] {
  return input.entries.filter((held) => held.entry.car === input.car);
}

const asked = (input: ReleaseInput) => input.queue?.arrivals ?? -1;

function unsent(input: ReleaseInput): string | null {
  const count = ofCar(input).filter((held) => held.sending === "waiting").length;
  if (count === 0) return null;
  return messages.notKnown.unsent(count);
}

function cameIn(input: ReleaseInput): string | null {
  const last = enteredOf(input);
  const held = input.entries.find((one) => one.entry.id === last?.id);
  if (!last || !held || held.arrival <= asked(input)) return null;
  const clock = input.setup ? clockIn(input.setup.timezone, officialOf(last)) : clockOf(last.at);
  return messages.notKnown.cameIn(clock);
}

// This phone may not know that the car came in; then the itinerary says when it should have.
function wasDue(input: ReleaseInput): string | null {
  const entered = enteredOf(input);
  const services = input.setup?.services ?? [];
  const heard_ms = msOf(input.queue?.heard_at ?? "") ?? 0;
  const from = services.findIndex((one) => one.service === entered?.data.service) + 1;
  const due = services.slice(from).find((one) => {
    const arrive = one.arrive === null ? null : msOf(one.arrive);
    return arrive !== null && arrive > heard_ms && arrive <= input.now_ms;
  });
  if (!due?.arrive || !input.setup) return null;
  const clock = clockIn(input.setup.timezone, msOf(due.arrive) ?? 0);
  return messages.notKnown.wasDue(due.service, clock);
}

function newer(input: ReleaseInput): string | null {
  const entered = enteredOf(input)?.id;
  const settled = ofCar(input).filter((held) => held.sending !== "waiting" && held.entry.id !== entered);
  const count = settled.filter((held) => held.arrival > asked(input)).length;
  return count === 0 ? null : messages.notKnown.newer(count);
}

const enteredOf = ({ entries, car, setup }: ReleaseInput) => lastEntered(entries, car, setup);

const lastEntered = remembered((entries: LocalEntry[], car: string, setup: EventSetup | null) =>
  lastServiceEntered(entriesOf(entries), car, setup),
);
