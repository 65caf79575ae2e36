/** Decides when to speak with the server: at every sign of a chance, and on a timer while something waits. */

import type { Db } from "../store/db";
import { countEntries } from "../store/entries";
import { countWaitingPhotos } from "../store/photos";
import { waitMs } from "./backoff";
import { type Deps, type Round, syncRound } from "./round";
import { type Locks, takeLead } from "./leader";

/** Another tab is sending: look again so soon, in case it dies. With the rest of its lease it is a taking over within 5 s. */
const OTHER_TAB_MS = 1_500;

/** So seldom where nobody looks, or where the battery comes first; a sign of a network is still followed at once. */
export const RESTING_MS = 60_000;

/** No token of this phone is taken: only a manager or a restored server can change that. */
const REFUSED_MS = 60_000;

export interface OutboxDeps extends Deps {
  /** Names this tab. */
  holder: string;
  person: () => string | null;
  /** Called after each round that this tab made; says whether all that is asked for then came. */
  onRound: (round: Round) => Promise<boolean>;
  isHidden: () => boolean;
  /** Whether the battery comes before speed: this phone may be the one that calls for help. */
  isResting: () => boolean;
  /** Null in a browser where they do not work. */
  locks: Promise<Locks | null>;
  /** In [0, 1), spreads the tries of many phones. */
  chance: () => number;
}

export interface Outbox {
  /** There may be something to do: start a round now, or one more after the one under way. */
  sync(): Promise<void>;
  /** Settles once no round is under way. */
  idle(): Promise<void>;
  stop(): void;
}

/** Make the outbox; nothing runs before the first `sync`. */
export function openOutbox(deps: OutboxDeps): Outbox {
  let running: Promise<void> | null = null;
  let again = false;
  let failures = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let stopped = false;

  const rests = () => deps.isHidden() || deps.isResting();

  async function run(): Promise<void> {
    do {
      again = false;
      clearTimeout(timer);
      await once().catch(lookAgain);
    } while (again && !stopped);
  }

  // The phone's store is away, as when the phone is full: nothing was marked sent, and it comes back by itself.
  function lookAgain(error: unknown): void {
    if (!(error instanceof DOMException)) throw error;
    later(OTHER_TAB_MS);
  }

  function later(wait_ms: number): void {
    clearTimeout(timer);
    if (!stopped) timer = setTimeout(() => void sync(), rests() ? Math.max(wait_ms, RESTING_MS) : wait_ms);
  }

  async function once(): Promise<void> {
    const rounds: Round[] = [];
    const work = async () => {
      rounds.push(await syncRound(deps, deps.person()));
    };
    await takeLead(deps.db, deps.holder, deps.now, work, await deps.locks);
    const round = rounds[0];
    // Also with nothing waiting: that tab may have asked before what this one heard of, or have ended.
    if (!round) return later(OTHER_TAB_MS);
    const stuck = isAway(round.outcome) || (!round.changed && (await isWaiting(deps.db)));
    const came = await deps.onRound(round);
    failures = stuck || !came ? failures + 1 : 0;
    const wait_ms = round.outcome === "idle" ? REFUSED_MS : waitMs(failures, deps.chance(), round.retry_after_s);
    // With nothing waiting a hidden page lets the battery be, and one that reached the server hears by the live stream.
    if ((failures > 0 && !deps.isHidden()) || (await isWaiting(deps.db))) later(wait_ms);
  }

  function sync(): Promise<void> {
    if (stopped) return Promise.resolve();
    again = true;
    running ??= run().finally(() => {
      running = null;
    });
    return running;
  }

  return {
    sync,
    idle: () => running ?? Promise.resolve(),
    stop() {
      stopped = true;
      clearTimeout(timer);
    },
  };
}

/** Say whether what came of asking means that the server is away, or as good as. */
export const isAway = (outcome: string): boolean => ["unreachable", "failed"].includes(outcome);

async function isWaiting(db: Db): Promise<boolean> {
  return (await countEntries(db, "waiting")) + (await countWaitingPhotos(db)) > 0;
}
