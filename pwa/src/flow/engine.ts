/** Runs the app behind its screens: one state, the actions on it, and all that moves without a tap. */

import { type Db, openStore } from "../store/db";
import { type AsOf, knows } from "../store/current";
import { readMeta, writeMeta } from "../store/meta";
import { dropOldDrafts } from "../store/photos";
import { nothingKnown, putBack } from "../store/put_back";
import { type News, openTabs } from "../store/tabs";
import { lateLive } from "./late_live";
import { isAway, type Outbox, openOutbox } from "../sync/outbox";
import type { Round } from "../sync/round";
import { workingLocks } from "../sync/leader";
import { type Actions, actionsOf } from "./actions";
import { askAnswers } from "./answers";
import type { Core, Running, RunningCore } from "./core";
import { installAtStart, watchInstall } from "./install";
import { followJoinLink, pickPerson, stayWithPerson } from "./joining";
import { tellIfSlow } from "./slow_store";
import { lookAtStore } from "./storage";
import type { AppState } from "./model";
import { openLocalQueue, calculateQueue } from "./local_queue";
import { isHidden, watchPage } from "./page";
import { showFirst } from "./opening";
import { coalesced } from "./refresh";
import { packLater } from "./packing";
import { emptyState, type Page, readSnapshot, type Snapshot } from "./state";
import { tabChoice } from "./tab";
import { keepingAtStart, registerWorker } from "./update";
import { messages } from "../kit/messages";

export interface Engine {
  state(): AppState;
  /** Calls back at each new state; returns how to stop. */
  subscribe(listener: (state: AppState) => void): () => void;
  actions: Actions;
}

/** Start the app. */
export function startEngine(): Engine {
  const listeners = new Set<(state: AppState) => void>();
  let now: Snapshot = {
    state: emptyState(Date.now()),
    speaking: null,
    held: [],
    own_wanted: null,
    known: nothingKnown(),
  };
  const draw = (snapshot: Snapshot) => {
    now = snapshot;
    for (const listener of listeners) listener(snapshot.state);
  };
  const core = coreOf(() => now, draw);
  // At once: the browser offers it when it likes, and once.
  watchInstall((install) => {
    core.page.install = install;
    if (now.state.ready) void core.refresh();
  });
  void start(core).catch((error: unknown) => {
    // The outermost edge: without its store the app can keep nothing, and must say so rather than stay blank.
    const text = isOfNewerApp(error) ? messages.newerStore : messages.noStore;
    draw({ ...now, state: { ...now.state, ready: true, message: { text, undo: null, stays: true } } });
    console.error(error);
  });
  return {
    state: () => now.state,
    subscribe(listener) {
      listeners.add(listener);
      listener(now.state);
      return () => listeners.delete(listener);
    },
    actions: actionsOf(core),
  };
}

// IndexedDB, 4.4: opening with a lower version than the one that is there is a VersionError, and changes nothing.
function isOfNewerApp(error: unknown): boolean {
  return error instanceof DOMException && error.name === "VersionError";
}

function coreOf(snapshot: () => Snapshot, draw: (snapshot: Snapshot) => void): RunningCore {
  const page = freshPage();
  const tell = (text: string) => {
    page.message = { text, undo: null, stays: true };
    draw({ ...snapshot(), state: { ...snapshot().state, message: page.message } });
  };
  const onReopened = async (reopened: Db, emptied: boolean) => {
    await putBack(reopened, snapshot().known);
    if (emptied) tell(messages.putBack);
  };
  const db = openStore("shuntbook", () => tell(messages.otherVersion), onReopened);
  tellIfSlow(
    db,
    () => tell(messages.slowStore),
    () => {
      if (page.message?.text === messages.slowStore) page.message = null;
    },
  );
  const own_queue = openLocalQueue(calculateQueue, Date.now, (own) => void setPage(core, { own_queue: own }));
  const refresh = coalesced(async () => {
    const read = await readSnapshot(await db, page, Date.now()).catch((error: unknown) => {
      // The store is away, as on a full phone: what was read last stays on screen, with what is to be said now.
      if (!(error instanceof DOMException)) throw error;
      return { ...snapshot(), state: { ...snapshot().state, message: page.message } };
    });
    draw(read);
    own_queue.follow(read.own_wanted);
  });
  const core: RunningCore = {
    db,
    page,
    fetch: (input, init) => fetch(input, init),
    now: () => Date.now(),
    snapshot,
    show: draw,
    refresh,
    written() {
      core.running.tabs.tell("waiting");
      void core.running.outbox.sync();
    },
    async askAnswers(anyway = false) {
      // What did not come is asked for again as a round is: sooner at first, then ever more seldom.
      if (!(await ask(core, anyway))) void core.running.outbox.sync();
    },
    running: { outbox: NOTHING_YET, live: { check() {} }, tabs: { tell() {}, close() {} } },
  };
  return core;
}

// Before the store is open there is nothing to send.
const NOTHING_YET: Outbox = { sync: () => Promise.resolve(), idle: () => Promise.resolve(), stop() {} };

function freshPage(): Page {
  return {
    person: null,
    event: tabChoice("event"),
    car: tabChoice("car"),
    hash: location.hash,
    persisted: null,
    space: null,
    install: installAtStart(),
    keeping: keepingAtStart(),
    following: null,
    update_ready: false,
    message: null,
    join_problem: null,
    fetched: null,
    planned: null,
    spares_wish: null,
    own_queue: null,
    position: null,
  };
}

async function start(core: RunningCore): Promise<void> {
  await pickPerson(core);
  await showFirst(core).catch(() => {}); // What is wrong with the store is said by what reads all of it.
  await stayWithPerson(core);
  await core.refresh();
  core.running = await runningParts(core);
  watch(core);
  registerWorker({
    onKeeping: (keeping) => void setPage(core, { keeping }),
    onFollowing: (following) => void setPage(core, { following }),
    onUpdate: () => void setPage(core, { update_ready: true }),
  });
  await followJoinLink(core);
  lookAtStore(core);
  const { car } = core.snapshot().state;
  if (car) await writeMeta(await core.db, "opened_car", car).catch(() => {});
  await dropOldDrafts(await core.db, core.now()).catch(() => {});
  core.running.live.check();
  await core.running.outbox.sync();
}

async function runningParts(core: RunningCore): Promise<Running> {
  const locks = workingLocks(() => navigator.locks);
  const db = await core.db;
  const { fetch, now } = core;
  const tabs = openTabs((news) => void onNews(core, news));
  const person = () => core.page.person;
  const onRound = (round: Round) => afterRound(core, round);
  const holder = Math.random().toString(36).slice(2);
  const isResting = () => core.snapshot().state.resting;
  const chance = Math.random;
  const onFetched = (fetched: number) => showFetched(core, fetched);
  const outbox = openOutbox({ db, fetch, now, holder, person, onFetched, onRound, isHidden, isResting, locks, chance });
  const live = lateLive({
    fetch,
    token: async () => core.snapshot().speaking?.token ?? null,
    onChanged: (news) => void onServersNews(core, news),
    onRefused() {
      if (!core.snapshot().speaking?.refused) void outbox.sync();
    },
    isHidden: () => isHidden() || isResting(),
    locks,
  });
  return { outbox, live, tabs };
}

function watch(core: RunningCore): void {
  const { outbox, live } = core.running;
  watchPage({
    onChance() {
      live.check();
      void core.refresh();
      void outbox.sync();
    },
    onHidden: () => live.check(),
    onAddress: () => void onAddress(core),
    onTick() {
      live.check();
      void core.refresh();
      // A phone whose clock was set back may show again what it may not on the road, without any news.
      if (!core.snapshot().state.queue) void askForScreen(core);
    },
  });
  // The first screen is there before this listens: whoever went on meanwhile is shown where they went.
  if (location.hash !== core.page.hash) void onAddress(core);
}

async function onAddress(core: RunningCore): Promise<void> {
  // The device, not the person: who was shut out and joins again has something waiting.
  const device = core.snapshot().speaking?.device;
  core.page.hash = location.hash;
  if (/^#?\/?me\b/.test(location.hash)) lookAtStore(core);
  await followJoinLink(core);
  await core.refresh();
  if (core.snapshot().speaking?.device !== device) {
    core.running.live.check();
    void core.running.outbox.sync();
  }
  await askForScreen(core);
}

// What this phone sent itself, and has the answer to, is no news to it.
async function onServersNews(core: RunningCore, news: AsOf | null): Promise<void> {
  const { outbox } = core.running;
  await outbox.idle();
  const isKnown = news !== null && (await isTold(core, news));
  if (!isKnown) void outbox.sync();
}

async function isTold(core: RunningCore, news: AsOf): Promise<boolean> {
  return knows(await core.db, news).catch((error: unknown) => {
    // The store is away for a moment: ask.
    if (!(error instanceof DOMException)) throw error;
    return false;
  });
}

// What another screen shows may have changed while it was away; with something unsent the next round asks.
async function askForScreen(core: RunningCore): Promise<void> {
  const { waiting, unreachable } = core.snapshot().state;
  if (waiting === 0 && !unreachable) await core.askAnswers();
}

async function onNews(core: RunningCore, news: News): Promise<void> {
  if (news === "waiting") void core.running.outbox.sync();
  await core.refresh();
  if (news === "server" && !isHidden()) await core.askAnswers();
}

// Drawn as it is: to read the store for each page of a long log would take longer than to fetch it.
function showFetched(core: RunningCore, fetched: number): void {
  core.page.fetched = fetched;
  core.show({ ...core.snapshot(), state: { ...core.snapshot().state, fetched } });
}

async function afterRound(core: RunningCore, round: Round): Promise<boolean> {
  const reached = round.outcome === "reached";
  core.page.fetched = null;
  if (round.outcome !== "idle") await keepReach(await core.db, [round.outcome]);
  const came = !reached || (await ask(core, false));
  if (!reached) await core.refresh();
  packLater(core);
  core.running.tabs.tell(reached && round.changed ? "server" : "store");
  return came;
}

/** Ask for what the screen shows; return whether all of it came. */
async function ask(core: RunningCore, anyway: boolean): Promise<boolean> {
  const { fetch, now } = core;
  const db = await core.db;
  const asked = await askAnswers(core, { db, fetch, now }, anyway);
  if (asked.length > 0 && (await keepReach(db, asked))) await core.refresh();
  return !asked.some(isAway);
}

// A server that falls over what is asked is no more use than one that is away, and is told apart in words.
async function keepReach(db: Db, came: string[]): Promise<boolean> {
  const failed = came.includes("failed");
  const unreachable = failed || came.includes("unreachable");
  const same = (await readMeta(db, "unreachable")) === unreachable && (await readMeta(db, "failed")) === failed;
  if (same) return false;
  await writeMeta(db, "unreachable", unreachable);
  await writeMeta(db, "failed", failed);
  return true;
}

/** Change what only the page knows, and draw. */
function setPage(core: Core, change: Partial<Page>): Promise<void> {
  Object.assign(core.page, change);
  return core.refresh();
}
