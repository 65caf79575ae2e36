/** Reads the phone's store into what the screens see. */

import type { EventSetup, Lives, Position, Role, Setup } from "../kit/api";
import type { Following, Keeping } from "../kit/kept_app";
import type { LocalEntry } from "../report/local_entry";
import { entriesOf } from "../report/lists";
import { entriesShown, isWorking, mayShowAdvice, type RoadInput, setupShown } from "../report/road";
import type { SparesWish } from "../report/season";
import { isStopped } from "../report/stopped";
import type { LocalQueue } from "../report/queue_source";
import { toldOf } from "../report/told";
import { workOut } from "../report/worked_out";
import { costsHere, filesHere, heard, livesKey, passesHere, statementsHere } from "../store/answers";
import type { Db, IdentityRecord } from "../store/db";
import { countEntries } from "../store/entries";
import { identitiesHere, speakingAs } from "../store/identities";
import { readMeta } from "../store/meta";
import { countBadPhotos, countWaitingPhotos } from "../store/photos";
import type { Known } from "../store/put_back";
import type { AppState, Identity } from "./model";
import type { LocalWanted } from "./local_queue";
import { type Place, placeOf, readPlace } from "./place";
import { carsBeside, joinCodeOf, routeOf, showsLives } from "./route";

/** What the page knows that no store holds. */
export interface Page {
  person: string | null;
  event: string | null;
  car: string | null;
  hash: string;
  persisted: boolean | null;
  space: AppState["space"];
  install: AppState["install"];
  keeping: Keeping;
  following: Following | null;
  update_ready: boolean;
  message: AppState["message"];
  join_problem: string | null;
  fetched: number | null;
  /** The service that was chosen to be planned. */
  planned: string | null;
  /** The event to pack for, where it was chosen. */
  spares_wish: SparesWish | null;
  /** The last queue that was worked out here. */
  own_queue: LocalQueue | null;
  /** Where this phone was for the report that is being written. */
  position: Position | null;
}

/** The state, and what of it is not for the screens. */
export interface Snapshot {
  state: AppState;
  /** Who speaks, with the token. */
  speaking: IdentityRecord | null;
  /** Entries of the event, others' work and decisions included. */
  held: LocalEntry[];
  /** The queue that is to be worked out on this phone, or null. */
  own_wanted: LocalWanted | null;
  /** What is put back where the browser throws the store away. */
  known: Known;
}

/** Return the state of an app that has not read its store yet. */
export function emptyState(now: number): AppState {
  return {
    ready: false,
    reading: false,
    identity: null,
    identities: [],
    route: { screen: "log", subject: null },
    setup: null,
    events: [],
    car: null,
    boards: [],
    entries: [],
    advice: false,
    resting: false,
    queue: null,
    queue_from: "server",
    release: null,
    fresh_jobs: [],
    has_looked: false,
    costs: null,
    statements: null,
    passes: null,
    season: null,
    lives: null,
    plans: [],
    team_plan: null,
    planned: null,
    briefing: null,
    drafts: [],
    files: [],
    told: null,
    last_heard: null,
    unreachable: false,
    failed: false,
    token_refused: false,
    fetched: null,
    waiting: 0,
    attention: 0,
    waiting_photos: 0,
    gaps: [],
    persisted: null,
    space: null,
    install: null,
    keeping: { state: "never" },
    following: null,
    update_ready: false,
    now,
    message: null,
    join_problem: null,
    joining: false,
  };
}

/** Read everything that the screens see; `reading`: but for the entries. */
export async function readSnapshot(db: Db, page: Page, now: number, reading = false): Promise<Snapshot> {
  // Asked together: on a slow phone each answer takes its time to come.
  const [identities, read, passes_told, counts] = await Promise.all([
    identitiesHere(db),
    readPlace(db, reading),
    readMeta(db, "passes_told"),
    countsOf(db),
  ]);
  const speaking = speakingAs(identities, page.person);
  const place = await placeOf(read, page, speaking);
  const { setup, car, held, events } = place;
  const roles = rolesNow(setup, speaking);
  const road: RoadInput = { roles, person: speaking?.person ?? "", car, setup, entries: held, now_ms: now };
  await workOut(road);
  const entries = entriesOf(held);
  const advice = !reading && speaking !== null && mayShowAdvice(road);
  const { own_wanted, ...answers } = await answersOf(db, place, speaking, advice, roles, page, now);
  const state: AppState = {
    ...emptyState(now),
    ready: true,
    reading,
    identity: speaking && publicOf(speaking, setup),
    identities: onePerPerson(identities, setup),
    route: routeOf(page.hash, roles),
    setup: setupShown(setup, roles),
    events,
    car,
    advice,
    resting: isStopped(entries, road.person, car ?? "", setup, now),
    entries: entriesShown(road),
    gaps: place.gaps,
    told: toldOf(place.setup_record?.answer as Setup | undefined, setup?.event, road.person, passes_told),
    token_refused: speaking?.refused ?? false,
    fetched: page.fetched,
    ...counts,
    ...answers,
    ...(await planOf(db, place, advice, page)),
    ...(await teamPlanOf(db, place, advice, roles, page)),
    ...(await passesOf(db, place, advice, roles, page)),
    ...(await seasonOf(db, place, roles, page)),
    ...(await livesOf(db, place, advice, page)),
    ...(await setupOf(db, roles, page)),
    persisted: page.persisted,
    space: page.space,
    install: page.install,
    keeping: page.keeping,
    following: page.following,
    update_ready: page.update_ready,
    message: page.message,
    join_problem: page.join_problem,
    joining: joinCodeOf(page.hash) !== null,
  };
  state.boards = await boardsOf(db, page, state);
  const known = { identities, entries: [...place.all_held], setup: place.setup_record };
  return { state, speaking, held, own_wanted, known };
}

// What is calculated here is of the chosen car: of another one the server's own answer stands on the wall.
async function boardsOf(db: Db, page: Page, { route, setup, car, now }: AppState): Promise<AppState[]> {
  const known = setup?.cars.map((one) => one.car) ?? [];
  const cars = carsBeside(route).filter((one) => one !== car && known.includes(one));
  const each = cars.map(async (one) => (await readSnapshot(db, { ...page, car: one, hash: "#/board" }, now)).state);
  return Promise.all(each);
}

// Plans are long: they are read where they are shown. The copy of a briefing was given in service, and stays.
async function planOf(db: Db, { setup, car }: Place, advice: boolean, page: Page) {
  const isShown = /^#?\/?(plan|briefing|board|service|queue|job)\b/.test(page.hash);
  if (!isShown || !setup || !car) return {};
  const { briefingHere, plansHere } = await import("../store/plans");
  return {
    planned: page.planned,
    plans: advice ? await plansHere(db, setup.event, car) : [],
    briefing: await briefingHere(db, setup.event, car),
  };
}

// As plans: of all cars, for who works on them.
async function teamPlanOf(db: Db, { setup }: Place, advice: boolean, roles: Role[], page: Page) {
  if (!/^#?\/?team\b/.test(page.hash) || !setup || !advice || !isWorking(roles)) return {};
  return { team_plan: await (await import("../store/team_plans")).teamPlanHere(db, setup.event) };
}

// As plans: long, and read where it is shown.
async function seasonOf(db: Db, { setup }: Place, roles: Role[], page: Page) {
  if (!/^#?\/?season\b/.test(page.hash) || !setup || !roles.includes("manager")) return {};
  return { season: await (await import("../store/season")).seasonHere(db, setup.event) };
}

// Read where they are shown, by who works on the car.
async function livesOf(db: Db, { setup, car }: Place, advice: boolean, page: Page) {
  if (!advice || !setup || !car || !showsLives(page.hash)) return {};
  return { lives: await heard<Lives>(db, livesKey(setup.event, car)) };
}

async function passesOf(db: Db, { setup, car }: Place, advice: boolean, roles: Role[], page: Page) {
  if (!/^#?\/?passes\b/.test(page.hash) || !setup || !car || !advice || !isWorking(roles)) return {};
  return { passes: await passesHere(db, setup.event, car) };
}

// A whole set-up each: read where it is edited.
async function setupOf(db: Db, roles: Role[], page: Page) {
  if (!/^#?\/?setup\b/.test(page.hash) || !roles.includes("manager")) return {};
  const { draftsHere } = await import("../store/setup_drafts");
  const files = (await filesHere(db)).map(([event, held]) => ({ event, files: held }));
  return { drafts: await draftsHere(db), files };
}

// The set-up may say other roles than the day this person joined: it is what the server goes by.
function rolesNow(setup: EventSetup | null, speaking: IdentityRecord | null): Role[] {
  if (!setup) return speaking?.roles ?? [];
  return setup.people.find((one) => one.person === speaking?.person)?.roles ?? [];
}

// A crew on the road needs none of it. Where it can't be had yet, the next state tries again, and shows no queue meanwhile.
const shownQueue = () => import("./shown_queue").catch(() => null);

async function countsOf(db: Db) {
  const [last_heard, unreachable, failed, waiting, refused, bad_photos, waiting_photos] = await Promise.all([
    readMeta(db, "last_heard"),
    readMeta(db, "unreachable"),
    readMeta(db, "failed"),
    countEntries(db, "waiting"),
    countEntries(db, "attention"),
    countBadPhotos(db),
    countWaitingPhotos(db),
  ]);
  return { last_heard, unreachable, failed, waiting, attention: refused + bad_photos, waiting_photos };
}

async function answersOf(
  db: Db,
  place: Place,
  speaking: IdentityRecord | null,
  advice: boolean,
  roles: Role[],
  page: Page,
  now_ms: number,
) {
  const { setup, car } = place;
  if (!advice || !setup || !car || !speaking) return { own_wanted: null };
  const later = await shownQueue();
  if (!later) return { own_wanted: null };
  const shown = await later.readShownQueue(db, { ...place, setup, car }, speaking.person, page.own_queue, now_ms);
  return {
    ...shown,
    costs: roles.includes("manager") ? await costsHere(db, setup.event, car) : null,
    statements: roles.includes("manager") ? await statementsHere(db, setup.event, car) : null,
  };
}

// A server without set-ups knows at joining neither name nor role: what the set-up here says comes first.
function publicOf(record: IdentityRecord, setup: EventSetup | null): Identity {
  const { person, device, key, pin } = record;
  const known = setup?.people.find((one) => one.person === person);
  const name = known?.name ?? record.name;
  return { person, name, roles: rolesNow(setup, record), device, signs: Boolean(key), has_pin: Boolean(pin) };
}

function onePerPerson(records: IdentityRecord[], setup: EventSetup | null): Identity[] {
  const persons = [...new Set(records.map((one) => one.person))];
  return persons.flatMap((person) => {
    const record = speakingAs(records, person);
    return record ? [publicOf(record, setup)] : [];
  });
}
