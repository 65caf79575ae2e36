/** Finds where this tab is: its event and car, and what the phone holds of them. */

import type { Entry, EventSetup, Setup } from "../kit/api";
import { keptFor, keptGroups, keptUp } from "../kit/growing";
import { pausesFor } from "../kit/pauses";
import { type Gap, gapsOf } from "../report/gaps";
import type { LocalEntry } from "../report/local_entry";
import { entriesOf, idOf, idOfHeld } from "../report/lists";
import { byTime } from "../report/order";
import { answerRecord, SETUP_KEY } from "../store/answers";
import type { AnswerRecord, Db, IdentityRecord } from "../store/db";
import { entriesHere } from "../store/entries";
import { readMeta } from "../store/meta";
import type { AppState } from "./model";

/** What a tab was set to. */
interface Choice {
  event: string | null;
  car: string | null;
}

/** Where this tab is; `held` are entries of the event, all cars. */
export interface Place {
  setup: EventSetup | null;
  /** The set-up of all events as it was heard. */
  setup_record: AnswerRecord | null;
  events: AppState["events"];
  car: string | null;
  held: LocalEntry[];
  /** Entries of all events. */
  all_held: LocalEntry[];
  gaps: Gap[];
}

const byEvent = keptGroups(({ entry }: LocalEntry) => entry.event, idOfHeld);
const byPerson = keptGroups(({ person }: Entry) => person, idOf);
const NONE: never[] = [];

const setups = new WeakMap<Db, AnswerRecord>();

// The same set-up is the same object each time, by its tag: what was worked out with it need not be again.
async function setupRecord(db: Db): Promise<AnswerRecord | null> {
  const record = await answerRecord(db, SETUP_KEY);
  const last = setups.get(db);
  if (!record?.etag) return record;
  const same = last?.etag === record.etag ? { ...record, answer: last.answer } : record;
  setups.set(db, same);
  return same;
}

/** What is read for a place, whoever speaks. */
type PlaceRead = [AnswerRecord | null, string | null, string | null, string | null, LocalEntry[]];

/** Read what says where a tab is; `reading`: before the entries are read. */
export function readPlace(db: Db, reading: boolean): Promise<PlaceRead> {
  return Promise.all([
    setupRecord(db),
    readMeta(db, "last_event"),
    readMeta(db, "last_car"),
    reading ? readMeta(db, "opened_car") : null,
    reading ? NONE : entriesHere(db),
  ]);
}

/** Return where a tab is that speaks as somebody who joined here. */
export async function placeOf(read: PlaceRead, page: Choice, speaking: IdentityRecord | null): Promise<Place> {
  const [setup_record, last, last_car, opened_car, all_held] = read;
  const all = (setup_record?.answer as Setup | undefined)?.events ?? [];
  const own = speaking ? all.filter((one) => isIn(one, speaking)) : [];
  const named = (event: string | null | undefined) => own.find((one) => one.event === event);
  // Who chose none stays with the event that he joined: one that came later is chosen, never slipped in.
  const setup = named(page.event) ?? named(last) ?? speaking?.events.map(named).find(Boolean) ?? own[0] ?? null;
  const pause = pausesFor(all_held.length);
  const groups = byEvent(all_held);
  await pause();
  const held = groups.get(setup?.event ?? "") ?? NONE;
  const all_entries = entriesOf(all_held);
  await pause();
  const gaps = gapsOf(all_entries);
  await pause();
  const events = own.map(({ event, name }) => ({ event, name }));
  const car = setup && carOf(setup, [page.car, last_car, opened_car], speaking, held);
  return { setup, setup_record, events, car, held, all_held, gaps };
}

// An event that came after this person joined has him in its people.
function isIn({ event, people }: EventSetup, { person, events }: IdentityRecord): boolean {
  return events.length === 0 || events.includes(event) || people.some((one) => one.person === person);
}

// The tab's car, the phone's last one, the only one, or that of this person's last entry; else the screens ask.
function carOf(
  setup: EventSetup,
  wanted: (string | null)[],
  speaking: IdentityRecord | null,
  held: LocalEntry[],
): string | null {
  const cars = setup.cars.map((one) => one.car);
  const chosen = wanted.find((car) => car !== null && cars.includes(car));
  if (chosen) return chosen;
  if (cars.length === 1) return cars[0] ?? null;
  return lastOwn(setup)(byPerson(entriesOf(held)).get(speaking?.person ?? "") ?? NONE).last?.car ?? null;
}

const lastOwn = keptFor((setup: EventSetup) => {
  const cars = setup.cars.map((one) => one.car);
  const later = (last: Entry | undefined, one: Entry) =>
    cars.includes(one.car) && (!last || byTime(last, one) < 0) ? one : last;
  return keptUp<Entry, { last: Entry | undefined }>(
    (own) => ({ last: own.reduce(later, undefined as Entry | undefined) }),
    ({ last }, changes) =>
      changes.some(({ was }) => was)
        ? null
        : { last: changes.reduce((so_far, { now }) => (now ? later(so_far, now) : so_far), last) },
  );
});
