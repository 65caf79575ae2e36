/** Reads the phone's store into what the screens see. */

import type { EventSetup, Role } from "../kit/api";
import { freshJobs, type Looked } from "../report/fresh";
import { type Gap, gapsOf } from "../report/gaps";
import type { HeldEntry } from "../report/held";
import { byTime } from "../report/order";
import { releaseShown } from "../report/release";
import { entriesShown, mayShowAdvice, type RoadInput } from "../report/road";
import { costsHere, queueHere, setupHere } from "../store/answers";
import type { Db, IdentityRecord } from "../store/db";
import { countEntries, entriesHere } from "../store/entries";
import { identitiesHere, speakingAs } from "../store/identities";
import { readLook, readMeta } from "../store/meta";
import { countBadPhotos, countWaitingPhotos } from "../store/photos";
import type { AppState, Identity } from "./model";
import { routeOf } from "./route";

/** What the page knows that no store holds. */
export interface Page {
  person: string | null;
  event: string | null;
  car: string | null;
  hash: string;
  persisted: boolean | null;
  offline_ready: boolean;
  update_ready: boolean;
  message: AppState["message"];
  join_problem: string | null;
}

/** The state, and what of it is not for the screens. */
export interface Snapshot {
  state: AppState;
  /** Who speaks, with the token. */
  speaking: IdentityRecord | null;
  /** Entries of the event, others' work and decisions included. */
  held: HeldEntry[];
}

/** Return the state of an app that has not read its store yet. */
export function emptyState(now: number): AppState {
  return {
    ready: false,
    identity: null,
    identities: [],
    route: { screen: "log", subject: null },
    setup: null,
    events: [],
    car: null,
    entries: [],
    advice: false,
    queue: null,
    release: null,
    fresh_jobs: [],
    costs: null,
    last_heard: null,
    unreachable: false,
    token_refused: false,
    waiting: 0,
    attention: 0,
    waiting_photos: 0,
    gaps: [],
    persisted: null,
    offline_ready: false,
    update_ready: false,
    now,
    message: null,
    join_problem: null,
  };
}

/** Read everything that the screens see. */
export async function readSnapshot(db: Db, page: Page, now: number): Promise<Snapshot> {
  const identities = await identitiesHere(db);
  const speaking = speakingAs(identities, page.person);
  const place = await placeOf(db, page, speaking);
  const { setup, car, held, events } = place;
  const roles = rolesNow(setup, speaking);
  const road: RoadInput = { roles, person: speaking?.person ?? "", car, setup, entries: held, now_ms: now };
  const advice = speaking !== null && mayShowAdvice(road);
  const state: AppState = {
    ...emptyState(now),
    ready: true,
    identity: speaking && publicOf(speaking, roles),
    identities: onePerPerson(identities),
    route: routeOf(page.hash, roles),
    setup,
    events,
    car,
    advice,
    entries: entriesShown(road),
    gaps: place.gaps,
    token_refused: speaking?.refused ?? false,
    ...(await countsOf(db)),
    ...(await answersOf(db, place, speaking, advice, roles, now)),
    persisted: page.persisted,
    offline_ready: page.offline_ready,
    update_ready: page.update_ready,
    message: page.message,
    join_problem: page.join_problem,
  };
  return { state, speaking, held };
}

interface Place {
  setup: EventSetup | null;
  events: AppState["events"];
  car: string | null;
  held: HeldEntry[];
  gaps: Gap[];
}

// The set-up may say other roles than the day this person joined: it is what the server goes by.
function rolesNow(setup: EventSetup | null, speaking: IdentityRecord | null): Role[] {
  return setup?.people.find((one) => one.person === speaking?.person)?.roles ?? speaking?.roles ?? [];
}

async function placeOf(db: Db, page: Page, speaking: IdentityRecord | null): Promise<Place> {
  const all = (await setupHere(db))?.events ?? [];
  const own = speaking ? all.filter((one) => speaking.events.length === 0 || speaking.events.includes(one.event)) : [];
  const last = await readMeta(db, "last_event");
  const setup = own.find((one) => one.event === page.event) ?? own.find((one) => one.event === last) ?? own[0] ?? null;
  const all_held = await entriesHere(db);
  const held = all_held.filter((one) => one.entry.event === setup?.event);
  const gaps = gapsOf(all_held.map((one) => one.entry));
  const events = own.map(({ event, name }) => ({ event, name }));
  const car = setup && carOf(setup, [page.car, await readMeta(db, "last_car")], speaking, held);
  return { setup, events, car, held, gaps };
}

// The tab's car, the phone's last one, the only one, or that of this person's last entry; else the screens ask.
function carOf(
  setup: EventSetup,
  wanted: (string | null)[],
  speaking: IdentityRecord | null,
  held: HeldEntry[],
): string | null {
  const cars = setup.cars.map((one) => one.car);
  const chosen = wanted.find((car) => car !== null && cars.includes(car));
  if (chosen) return chosen;
  if (cars.length === 1) return cars[0] ?? null;
  const own = held.map((one) => one.entry).filter((entry) => entry.person === speaking?.person);
  return (
    own
      .filter((entry) => cars.includes(entry.car))
      .sort(byTime)
      .at(-1)?.car ?? null
  );
}

async function countsOf(db: Db) {
  return {
    last_heard: await readMeta(db, "last_heard"),
    unreachable: await readMeta(db, "unreachable"),
    waiting: await countEntries(db, "waiting"),
    attention: (await countEntries(db, "attention")) + (await countBadPhotos(db)),
    waiting_photos: await countWaitingPhotos(db),
  };
}

async function answersOf(
  db: Db,
  place: Place,
  speaking: IdentityRecord | null,
  advice: boolean,
  roles: Role[],
  now_ms: number,
) {
  const { setup, car, held: entries } = place;
  if (!advice || !setup || !car || !speaking) return {};
  const queue = await queueHere(db, setup.event, car);
  const looked = (await readLook(db, speaking.person, setup.event, car)) as Looked | null;
  return {
    queue,
    release: releaseShown({ car, queue, entries, setup, now_ms }),
    fresh_jobs: queue ? freshJobs(queue.answer, looked) : [],
    costs: roles.includes("manager") ? await costsHere(db, setup.event, car) : null,
  };
}

function publicOf(record: IdentityRecord, roles: Role[]): Identity {
  const { person, name, device } = record;
  return { person, name, roles, device };
}

function onePerPerson(records: IdentityRecord[]): Identity[] {
  const persons = [...new Set(records.map((one) => one.person))];
  return persons.flatMap((person) => {
    const record = speakingAs(records, person);
    return record ? [publicOf(record, record.roles)] : [];
  });
}
